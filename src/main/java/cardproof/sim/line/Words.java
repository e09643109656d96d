package cardproof.sim.line;

import cardproof.text.Nearest;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The words of a fault one after another, and what is said when one is not as it should be. */
final class Words {
  private static final Pattern WORD = Pattern.compile("\\d+(?:\\.\\d+)?|[\\p{L}_]+|\\S");
  private static final Pattern NUMBER = Pattern.compile("\\d{1,9}(?:\\.\\d{1,9})?");
  private static final Map<String, Long> UNITS_NS =
      Map.of("us", 1_000L, "ms", 1_000_000L, "s", 1_000_000_000L);
  private static final List<String> UNITS = List.of("us", "ms", "s");
  private static final BigDecimal HUNDRED = BigDecimal.valueOf(100);

  /** Longer than any run, and far from where nanoseconds overflow. */
  private static final BigDecimal LONGEST_NS = BigDecimal.valueOf(86_400_000_000_000L);

  private static final int SLOWEST_BAUD = 300;
  private static final int FASTEST_BAUD = 100_000_000;

  private final String text;
  private final List<String> words = new ArrayList<>();
  private int at;

  Words(String text) {
    this.text = text.strip();
    Matcher matcher = WORD.matcher(text);
    while (matcher.find()) {
      words.add(matcher.group().toLowerCase(Locale.ROOT));
    }
  }

  boolean comes(String word) {
    return at < words.size() && words.get(at).equals(word);
  }

  /** Takes the word if it comes. */
  boolean next(String word) {
    boolean here = comes(word);
    at += here ? 1 : 0;
    return here;
  }

  void expect(String word) {
    if (!next(word)) {
      throw refused(found(), "'" + word + "'", hint(List.of(word)));
    }
  }

  /** One of these words, whose sense is {@code what}. */
  String oneOf(String what, List<String> known) {
    if (at >= words.size() || !known.contains(words.get(at))) {
      String here = at < words.size() ? words.get(at) : "";
      throw refused(found(), what, Nearest.hint(here, known));
    }
    return words.get(at++);
  }

  void end() {
    if (at < words.size()) {
      throw refused(found(), "',' and what else befalls the link, or the end", hint(List.of(",")));
    }
  }

  /** A percentage as a share from 0 to 1. */
  double share() {
    return share("");
  }

  /**
   * @param orElse what else may stand here
   */
  double share(String orElse) {
    BigDecimal percent = number("a percentage such as 1 %" + orElse);
    expect("%");
    if (percent.signum() == 0 || percent.compareTo(HUNDRED) > 0) {
      throw refused(percent + " % of the frames", "more than 0 %, at most 100 %", "");
    }
    return percent.doubleValue() / 100;
  }

  /** A time with its unit, in nanoseconds. */
  long timeNs() {
    BigDecimal number = number("a time such as 16 ms");
    String unit = oneOf("a unit of time", UNITS);
    BigDecimal ns = number.multiply(BigDecimal.valueOf(UNITS_NS.get(unit)));
    if (ns.compareTo(BigDecimal.ONE) < 0 || ns.compareTo(LONGEST_NS) > 0) {
      throw refused("a time of " + number + " " + unit, "more than 0, at most a day", "");
    }
    return ns.longValue();
  }

  long baud() {
    BigDecimal number = number("a speed such as 250000 baud");
    expect("baud");
    if (number.compareTo(BigDecimal.valueOf(SLOWEST_BAUD)) < 0
        || number.compareTo(BigDecimal.valueOf(FASTEST_BAUD)) > 0) {
      throw refused(
          "a speed of " + number + " baud", SLOWEST_BAUD + " to " + FASTEST_BAUD + " baud", "");
    }
    return number.longValue();
  }

  RefusedException refused(String found, String wanted, String next) {
    return new RefusedException(new Problem("fault '" + text + "'", found, wanted, next));
  }

  private BigDecimal number(String what) {
    if (at >= words.size() || !NUMBER.matcher(words.get(at)).matches()) {
      throw refused(found(), what, "");
    }
    return new BigDecimal(words.get(at++));
  }

  private String found() {
    String before = at == 0 ? "" : " after '" + words.get(at - 1) + "'";
    return at < words.size() ? "'" + words.get(at) + "'" + before : "nothing" + before;
  }

  private String hint(List<String> known) {
    return at < words.size()
        ? Nearest.to(words.get(at), known).map(word -> "Did you mean '" + word + "'?").orElse("")
        : "";
  }
}
