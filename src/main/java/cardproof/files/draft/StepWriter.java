package cardproof.files.draft;

import cardproof.card.Bus;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** Writes steps of a first plan as YAML. */
final class StepWriter {
  private final DraftCard card;

  StepWriter(DraftCard card) {
    this.card = card;
  }

  /**
   * @param moved buses that the step itself sets
   * @param standing by bus index, what all other inputs stand at
   * @param rest its lines behind {@code drive} and {@code release}, with line ends
   */
  DraftStep step(
      List<String> about, String title, Collection<Bus> moved, long[] standing, String rest) {
    String drive =
        card.inputs().stream()
            .filter(bus -> !moved.contains(bus))
            .map(bus -> bus.name() + ": " + word(standing[card.index(bus)]))
            .collect(Collectors.joining(", "));
    String release =
        card.shared().stream()
            .filter(bus -> !moved.contains(bus))
            .map(Bus::name)
            .collect(Collectors.joining(", "));
    return new DraftStep(
        about,
        "  - title: "
            + title
            + "\n"
            + (drive.isEmpty() ? "" : "    drive: {" + drive + "}\n")
            + (release.isEmpty() ? "" : "    release: [" + release + "]\n")
            + rest);
  }

  static String each(String buses, String words) {
    return "    each: {" + buses + ": " + words + "}\n";
  }

  static String pulse(String line) {
    return "    pulse: {" + line + ": 1}\n";
  }

  /** {@code A B CI}. */
  static String names(Collection<Bus> buses) {
    return buses.stream().map(Bus::name).collect(Collectors.joining(" "));
  }

  static String word(long level) {
    return level >= 0 && level < 10
        ? "" + level
        : "0x" + Long.toHexString(level).toUpperCase(Locale.ROOT);
  }
}
