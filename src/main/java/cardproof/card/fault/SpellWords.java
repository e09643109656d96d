package cardproof.card.fault;

import java.math.BigDecimal;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The words behind the comma of a fault that comes and goes: {@code in 10 % of spells of 5 ms}. */
final class SpellWords {
  static final String EXAMPLE = ", in 10 % of spells of 5 ms";
  private static final Pattern FORM =
      Pattern.compile(
          "in (\\d{1,3}(?:\\.\\d{1,3})?) ?% of spells of (.+)", Pattern.CASE_INSENSITIVE);

  /** A name cut at its comma; {@code when} is empty where there is none. */
  record Cut(String fault, String when) {}

  private SpellWords() {}

  /** Cuts at the last comma, unless what follows it holds the words that say what is wrong. */
  static Cut cut(String name) {
    int comma = name.lastIndexOf(',');
    String when = comma < 0 ? "" : name.substring(comma + 1).strip();
    return when.isEmpty() || Verb.find(" " + when).isPresent()
        ? new Cut(name, "")
        : new Cut(name.substring(0, comma).strip(), when);
  }

  /** Puts them to a fault; empty where they cannot be read. */
  static Optional<Intermittent> put(Fault fault, String when) {
    Matcher form = FORM.matcher(when);
    if (!form.matches()) {
      return Optional.empty();
    }
    BigDecimal perMille = new BigDecimal(form.group(1)).movePointRight(1).stripTrailingZeros();
    OptionalLong spellUs = Spans.read(form.group(2));
    boolean good =
        perMille.scale() <= 0
            && perMille.signum() > 0
            && perMille.intValueExact() < Intermittent.CERTAIN
            && spellUs.isPresent()
            && spellUs.getAsLong() >= Intermittent.LEAST_SPELL_US
            && spellUs.getAsLong() <= Intermittent.MOST_SPELL_US;
    return good
        ? Optional.of(new Intermittent(fault, perMille.intValueExact(), spellUs.getAsLong()))
        : Optional.empty();
  }
}
