package cardproof.files;

import cardproof.text.Nearest;
import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Numbers with a unit, taken exactly: no value passes through binary fractions. Prefixes and
 * symbols are those of the SI (BIPM brochure, 9th edition, tables 2, 4 and 7).
 */
enum Quantity {
  /** In microseconds. */
  TIME("a time", "800 us, 12 ms or 1.5 s", "us", 1, "ms", 1000, "s", 1_000_000),
  /** In nanoseconds. */
  SHORT_TIME(
      "a time", "50 us or 12.5 us", "ns", 1, "us", 1000, "ms", 1_000_000, "s", 1_000_000_000),
  /** In millivolts. */
  VOLTAGE("a voltage", "12 V or 4500 mV", "mV", 1, "V", 1000),
  /** In milliamperes. */
  CURRENT("a current", "80 mA or 3 A", "mA", 1, "A", 1000),
  /** In thousandths of an ohm, a unit that nobody writes. */
  RESISTANCE(
      "a resistance",
      "470 ohm or 1 kohm",
      "mohm",
      1,
      "ohm",
      1000,
      "kohm",
      1_000_000,
      "Mohm",
      1_000_000_000),
  /** In micrometres. */
  LENGTH("a length", "12 mm or 2.54 mm", "um", 1, "mm", 1000, "cm", 10_000),
  /** In hundredths. */
  PERCENT("a part of a hundred", "75 %", "%", 1);

  private static final Pattern FORM =
      Pattern.compile("([+-]?)(\\d{1,15}(?:\\.\\d{1,15})?)\\s*([A-Za-z%]*)");
  private static final Pattern COMMA = Pattern.compile("\\d+,\\d+.*");

  private final String name;
  private final String forms;
  private final Map<String, Long> units = new LinkedHashMap<>();

  Quantity(String name, String forms, Object... units) {
    this.name = name;
    this.forms = forms;
    for (int i = 0; i < units.length; i += 2) {
      this.units.put((String) units[i], ((Integer) units[i + 1]).longValue());
    }
  }

  /** The value in the smallest unit; empty, with a problem said, where there is none in range. */
  OptionalLong read(Node node, String key, long least, long most, Problems problems) {
    String wanted = name + " such as " + forms;
    Optional<Node.Text> given = new Texts(problems).text(node, key, wanted);
    if (given.isEmpty()) {
      return OptionalLong.empty();
    }
    String text = plain(given.get().text());
    String found = given.get().saidOf(key);
    Matcher form = FORM.matcher(text);
    if (!form.matches()) {
      String next =
          COMMA.matcher(text).matches()
              ? "Write a point, not a comma: " + text.replace(',', '.')
              : "";
      problems.error(node.at(), found, wanted, next);
      return OptionalLong.empty();
    }
    Long unit = units.get(form.group(3));
    if (unit == null) {
      problems.error(node.at(), found, wanted, unitHint(form.group(2), form.group(3)));
      return OptionalLong.empty();
    }
    BigDecimal value =
        new BigDecimal(form.group(1) + form.group(2)).multiply(BigDecimal.valueOf(unit));
    if (value.compareTo(BigDecimal.valueOf(least)) < 0
        || value.compareTo(BigDecimal.valueOf(most)) > 0) {
      problems.error(node.at(), found, name + " from " + text(least) + " to " + text(most), "");
      return OptionalLong.empty();
    }
    if (value.stripTrailingZeros().scale() > 0) {
      problems.error(node.at(), found, "a whole number of " + smallest(), "");
      return OptionalLong.empty();
    }
    return OptionalLong.of(value.longValueExact());
  }

  /** Micro sign and Greek mu stand for u, ohm sign and Greek omega for ohm. */
  private static String plain(String text) {
    return text.strip()
        .replace('\u00B5', 'u')
        .replace('\u03BC', 'u')
        .replace("\u2126", "ohm")
        .replace("\u03A9", "ohm");
  }

  private String unitHint(String number, String unit) {
    List<String> known = List.copyOf(units.keySet());
    if (unit.isEmpty()) {
      List<String> with = known.stream().map(name -> number + " " + name).toList();
      return "A number alone has no unit: write " + String.join(" or ", with);
    }
    String near = Nearest.to(unit, known).map(name -> "; did you mean " + name + "?").orElse("");
    return "The unit is one of " + String.join(", ", known) + near;
  }

  /** How many of the smallest unit this one holds. */
  long unit(String symbol) {
    return units.get(symbol);
  }

  private String smallest() {
    return units.keySet().iterator().next();
  }

  /** As a user would write it, in the largest unit of which there is a whole one. */
  String text(long value) {
    String unit = smallest();
    for (Map.Entry<String, Long> larger : units.entrySet()) {
      if (Math.abs(value) >= larger.getValue()) {
        unit = larger.getKey();
      }
    }
    return BigDecimal.valueOf(value)
            .divide(BigDecimal.valueOf(units.get(unit)))
            .stripTrailingZeros()
            .toPlainString()
        + " "
        + unit;
  }
}
