package cardproof.notes;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Works out a sum as the notes write it: {@code 4.7 kohm x 1.4 nF x ln(9.9 / 4)}. Units stand
 * behind their number and count: volts cannot be added to ohms. {@code x} and {@code /} bind alike,
 * from the left.
 */
final class Sum {
  private static final Pattern TOKEN =
      Pattern.compile("\\G\\s*(?:(\\d+(?:\\.\\d+)?)|(ln\\()|([a-zA-Z][\\w/]*)|(\\^2)|([-+/()]))");

  private final List<String> tokens = new ArrayList<>();
  private final String text;
  private int next;

  private Sum(String text) {
    this.text = text;
    Matcher matcher = TOKEN.matcher(text);
    int end = 0;
    while (matcher.find()) {
      tokens.add(matcher.group().strip());
      end = matcher.end();
    }
    if (!text.substring(end).isBlank()) {
      throw new AssertionError("cannot read '" + text.substring(end) + "' of '" + text + "'");
    }
  }

  static Amount of(String text) {
    Sum sum = new Sum(text);
    Amount amount = sum.terms();
    if (sum.next < sum.tokens.size()) {
      throw new AssertionError("'" + sum.tokens.get(sum.next) + "' is too much in '" + text + "'");
    }
    return amount;
  }

  private Amount terms() {
    Amount amount = factors();
    while (true) {
      if (take("+")) {
        amount = amount.plus(factors());
      } else if (take("-")) {
        amount = amount.minus(factors());
      } else {
        return amount;
      }
    }
  }

  private Amount factors() {
    Amount amount = factor();
    while (true) {
      if (take("x")) {
        amount = amount.times(factor());
      } else if (take("/")) {
        amount = amount.over(factor());
      } else {
        return amount;
      }
    }
  }

  private Amount factor() {
    Amount amount = base();
    return take("^2") ? amount.squared() : amount;
  }

  private Amount base() {
    if (take("ln(")) {
      return closed().logarithm();
    }
    if (take("(")) {
      return closed();
    }
    if (next >= tokens.size() || !Character.isDigit(tokens.get(next).charAt(0))) {
      throw new AssertionError("a number is missing in '" + text + "' at part " + (next + 1));
    }
    Amount amount = Amount.plain(Double.parseDouble(tokens.get(next++)));
    while (next < tokens.size() && tokens.get(next).matches("(?!x$)[a-zA-Z][\\w/]*")) {
      amount = amount.times(Amount.ofUnit(tokens.get(next++)));
    }
    return amount;
  }

  private Amount closed() {
    Amount amount = terms();
    if (!take(")")) {
      throw new AssertionError("a ) is missing in '" + text + "'");
    }
    return amount;
  }

  private boolean take(String token) {
    boolean here = next < tokens.size() && tokens.get(next).equals(token);
    if (here) {
      next++;
    }
    return here;
  }
}
