package cardproof.files;

import java.util.Optional;
import java.util.OptionalLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What parts are made for: the voltage and current of a lamp, a fuse's current, ohms. */
final class RatingReader {
  private static final String LAMP = "a voltage and a current, such as 12 V 40 mA";
  private static final Pattern VOLTS_AND_AMPS = Pattern.compile("\\s*(.*?V)\\s*,?\\s*(\\S.*?)\\s*");
  private static final long MOST_MILLIVOLTS = 1_000_000;
  private static final long MOST_MILLIAMPS = 1_000_000;
  private static final long MOST_MILLIOHMS = 100_000_000_000L;
  private static final double MILLI = 1000;

  /** What a lamp takes at the voltage that it is made for. */
  record LampRating(long millivolts, long milliamps) {}

  private final Problems problems;

  RatingReader(Problems problems) {
    this.problems = problems;
  }

  /** In milliamperes. */
  Optional<Long> fuse(Node node, String key) {
    return boxed(Quantity.CURRENT.read(node, key, 1, MOST_MILLIAMPS, problems));
  }

  Optional<Double> ohms(Node node, String key) {
    return boxed(Quantity.RESISTANCE.read(node, key, 1, MOST_MILLIOHMS, problems))
        .map(milliohms -> milliohms / MILLI);
  }

  Optional<LampRating> lamp(Node node, String key) {
    Optional<Node.Text> text = new Texts(problems).text(node, key, LAMP);
    if (text.isEmpty()) {
      return Optional.empty();
    }
    Matcher form = VOLTS_AND_AMPS.matcher(text.get().text());
    if (!form.matches()) {
      problems.error(text.get().at(), text.get().saidOf(key), LAMP, "");
      return Optional.empty();
    }
    OptionalLong millivolts =
        Quantity.VOLTAGE.read(
            TextList.part(text.get(), form.start(1), form.group(1)),
            key,
            1,
            MOST_MILLIVOLTS,
            problems);
    OptionalLong milliamps =
        Quantity.CURRENT.read(
            TextList.part(text.get(), form.start(2), form.group(2)),
            key,
            1,
            MOST_MILLIAMPS,
            problems);
    return millivolts.isPresent() && milliamps.isPresent()
        ? Optional.of(new LampRating(millivolts.getAsLong(), milliamps.getAsLong()))
        : Optional.empty();
  }

  private static Optional<Long> boxed(OptionalLong value) {
    return value.isPresent() ? Optional.of(value.getAsLong()) : Optional.empty();
  }
}
