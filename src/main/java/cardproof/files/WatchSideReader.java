package cardproof.files;

import cardproof.fixture.WatchSide;
import java.util.List;
import java.util.Locale;

/** What a profile says of its watches. Whatever is wrong is said and taken as not stated. */
final class WatchSideReader {
  static final List<String> KEYS =
      List.of("count", "kind", "low", "high", "load", "delay", "voltage");

  private static final String DIGITAL = "digital";
  private static final String ANALOGUE = "analogue";
  private static final long LONGEST_DELAY_US = 1_000_000;
  private static final long MOST_MILLIOHMS = 100_000_000_000L;

  private final Problems problems;

  WatchSideReader(Problems problems) {
    this.problems = problems;
  }

  WatchSide read(Fields watches) {
    boolean analogue =
        watches
            .get("kind")
            .flatMap(n -> FixtureReader.word(n, "kind", List.of(DIGITAL, ANALOGUE), problems))
            .filter(ANALOGUE::equals)
            .isPresent();
    long low = volts(watches, "low");
    long high = volts(watches, "high");
    if (high > 0 && low >= high) {
      problems.error(
          watches.at(),
          "a line at " + Quantity.VOLTAGE.text(low) + " would read both 0 and 1",
          "a 'low' below 'high', which is " + Quantity.VOLTAGE.text(high),
          "Exchange them if they changed places");
    }
    boolean current = watches.get("load").filter(WatchSideReader::isCurrent).isPresent();
    return new WatchSide(
        analogue,
        low,
        high,
        current ? quantity(watches, "load", Quantity.CURRENT, DriveSideReader.MOST_MILLIAMPS) : 0,
        current ? 0 : quantity(watches, "load", Quantity.RESISTANCE, MOST_MILLIOHMS) / 1000.0,
        quantity(watches, "delay", Quantity.TIME, LONGEST_DELAY_US),
        volts(watches, "voltage"),
        watches.at());
  }

  private static boolean isCurrent(Node node) {
    return node instanceof Node.Text text
        && text.text().strip().toLowerCase(Locale.ROOT).endsWith("a");
  }

  private long volts(Fields fields, String key) {
    return quantity(fields, key, Quantity.VOLTAGE, DriveSideReader.MOST_MILLIVOLTS);
  }

  private long quantity(Fields fields, String key, Quantity quantity, long most) {
    return fields.get(key).map(n -> quantity.read(n, key, 1, most, problems).orElse(0)).orElse(0L);
  }
}
