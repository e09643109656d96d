package cardproof.files;

import cardproof.fixture.AtReset;
import cardproof.fixture.DriveKind;
import cardproof.fixture.DriveSide;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/** What a profile says of its drives. Whatever is wrong is said and taken as not stated. */
final class DriveSideReader {
  static final List<String> KEYS =
      List.of("count", "kind", "voltage", "current", "groups", "held", "limited", "at-reset");
  static final List<String> VOLTAGE_KEYS = List.of("least", "most");
  static final List<String> GROUP_KEYS = List.of("of", "current");
  static final long MOST_MILLIVOLTS = 1_000_000;
  static final long MOST_MILLIAMPS = 100_000;

  private static final long MOST_CHANNELS = 255;

  private final Problems problems;

  DriveSideReader(Problems problems) {
    this.problems = problems;
  }

  DriveSide read(Fields drives) {
    DriveKind kind = kind(drives);
    Optional<Fields> voltage = map(drives, "voltage", VOLTAGE_KEYS);
    Optional<Fields> groups = map(drives, "groups", GROUP_KEYS);
    long least = voltage.map(f -> volts(f, "least")).orElse(0L);
    long most = voltage.map(f -> volts(f, "most")).orElse(0L);
    if (most > 0 && least > most) {
      problems.error(
          voltage.orElseThrow().at(),
          "the least voltage, " + Quantity.VOLTAGE.text(least) + ", is above the most",
          "a least of at most " + Quantity.VOLTAGE.text(most),
          "Exchange them if they changed places");
    }
    groups.ifPresent(
        f -> {
          f.require("of", "of: 8, how many channels one driver chip has");
          f.require("current", "current: 500 mA, what one chip carries in all");
        });
    if (kind != DriveKind.PUSH_PULL && drives.has("limited")) {
      problems.error(
          drives.entry("limited").orElseThrow().key().at(),
          "'limited' has no meaning for drives of kind " + kind.word(),
          "'limited' with kind: push-pull only",
          "Delete it");
    }
    return new DriveSide(
        kind,
        least,
        most,
        amps(drives, "current"),
        (int) (long) groups.map(f -> count(f, "of")).orElse(0L),
        groups.map(f -> amps(f, "current")).orElse(0L),
        (int) count(drives, "held"),
        amps(drives, "limited"),
        atReset(drives),
        drives.at());
  }

  private DriveKind kind(Fields drives) {
    List<String> words = Arrays.stream(DriveKind.values()).map(DriveKind::word).toList();
    return drives
        .get("kind")
        .flatMap(node -> FixtureReader.word(node, "kind", words, problems))
        .map(word -> DriveKind.values()[words.indexOf(word)])
        .orElse(DriveKind.SOURCE);
  }

  private AtReset atReset(Fields drives) {
    List<String> words = List.of(AtReset.RELEASED.word(), AtReset.UNDEFINED.word());
    return drives
        .get("at-reset")
        .flatMap(node -> FixtureReader.word(node, "at-reset", words, problems))
        .map(w -> w.equals(AtReset.RELEASED.word()) ? AtReset.RELEASED : AtReset.UNDEFINED)
        .orElse(AtReset.NOT_STATED);
  }

  private Optional<Fields> map(Fields drives, String key, List<String> keys) {
    return drives.get(key).flatMap(node -> Fields.of(node, key, keys, problems));
  }

  private long volts(Fields fields, String key) {
    return fields
        .get(key)
        .map(n -> Quantity.VOLTAGE.read(n, key, 1, MOST_MILLIVOLTS, problems).orElse(0))
        .orElse(0L);
  }

  private long amps(Fields fields, String key) {
    return fields
        .get(key)
        .map(n -> Quantity.CURRENT.read(n, key, 1, MOST_MILLIAMPS, problems).orElse(0))
        .orElse(0L);
  }

  private long count(Fields fields, String key) {
    return fields
        .get(key)
        .map(n -> new Numbers(problems).count(n, key, 1, MOST_CHANNELS).orElse(0))
        .orElse(0L);
  }
}
