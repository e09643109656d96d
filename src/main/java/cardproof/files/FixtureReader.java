package cardproof.files;

import cardproof.fixture.DriveSide;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.LoopBack;
import cardproof.fixture.SupplySide;
import cardproof.fixture.WatchSide;
import cardproof.text.Nearest;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/** From a tree to a fixture's profile. */
final class FixtureReader {
  static final List<String> KEYS =
      List.of(
          "fixture",
          "title",
          "kind",
          "drives",
          "watches",
          "supply",
          "loop-back",
          "baud",
          "sampling",
          "slots");

  private static final String SERIAL = "serial";
  private static final String SIMULATED = "simulated";
  private static final long MOST_CHANNELS = 255;

  private final Problems problems;
  private final Texts texts;
  private final Numbers numbers;

  FixtureReader(Problems problems) {
    this.problems = problems;
    this.texts = new Texts(problems);
    this.numbers = new Numbers(problems);
  }

  Optional<FixtureProfile> read(Node root) {
    return Fields.of(root, "the fixture profile", KEYS, problems).flatMap(this::profile);
  }

  private Optional<FixtureProfile> profile(Fields fields) {
    Optional<String> name =
        fields
            .require("fixture", "its name, such as fixture: plain 32+32 board")
            .flatMap(texts::boardName);
    Optional<String> title = fields.get("title").flatMap(node -> texts.title(node, "title"));
    Optional<String> kind =
        fields
            .require("kind", "kind: serial, for a board on a port, or kind: simulated")
            .flatMap(node -> word(node, "kind", List.of(SERIAL, SIMULATED)));
    Optional<Fields> drives =
        fields
            .require("drives", "drives: {count: 32, kind: source}")
            .flatMap(n -> Fields.of(n, "drives", DriveSideReader.KEYS, problems));
    Optional<Fields> watches =
        fields
            .require("watches", "watches: {count: 32}")
            .flatMap(n -> Fields.of(n, "watches", WatchSideReader.KEYS, problems));
    OptionalLong driveCount = drives.map(this::channels).orElse(OptionalLong.empty());
    OptionalLong watchCount = watches.map(this::channels).orElse(OptionalLong.empty());
    Optional<DriveSide> drive = drives.map(new DriveSideReader(problems)::read);
    Optional<WatchSide> watch = watches.map(new WatchSideReader(problems)::read);
    SupplySide supply =
        fields
            .get("supply")
            .flatMap(n -> Fields.of(n, "supply", SupplySideReader.KEYS, problems))
            .map(new SupplySideReader(problems)::read)
            .orElse(SupplySide.NONE);
    watches.ifPresent(f -> only(f, kind, "delay", SERIAL));
    only(fields, kind, "baud", SERIAL);
    only(fields, kind, "sampling", SIMULATED);
    only(fields, kind, "slots", SIMULATED);
    long baud = count(fields, "baud", 300, 12_000_000, FixtureProfile.DEFAULT_BAUD);
    long slots = count(fields, "slots", 2, 64, FixtureProfile.DEFAULT_SLOTS);
    long samplingNs =
        fields
            .get("sampling")
            .map(n -> Quantity.SHORT_TIME.read(n, "sampling", 1000, 10_000_000, problems).orElse(0))
            .orElse(FixtureProfile.DEFAULT_SAMPLING_NS);
    if (name.isEmpty() || kind.isEmpty() || driveCount.isEmpty() || watchCount.isEmpty()) {
      return Optional.empty();
    }
    int driveChannels = (int) driveCount.getAsLong();
    int watchChannels = (int) watchCount.getAsLong();
    LoopBack loopBack =
        fields
            .get("loop-back")
            .flatMap(n -> Fields.of(n, "loop-back", LoopBackReader.KEYS, problems))
            .map(new LoopBackReader(problems, driveChannels, watchChannels)::read)
            .orElseGet(() -> LoopBack.standard(driveChannels, watchChannels, fields.at()));
    return Optional.of(
        new FixtureProfile(
            name.get(),
            title.orElse(name.get()),
            kind.get().equals(SIMULATED),
            driveChannels,
            watchChannels,
            drive.orElseThrow(),
            watch.orElseThrow(),
            supply,
            (int) baud,
            samplingNs,
            (int) slots,
            loopBack,
            fields.at()));
  }

  private OptionalLong channels(Fields fields) {
    return fields
        .require("count", "count: 32, how many channels")
        .map(node -> numbers.count(node, "count", 1, MOST_CHANNELS))
        .orElse(OptionalLong.empty());
  }

  private long count(Fields fields, String key, long least, long most, long otherwise) {
    return fields
        .get(key)
        .map(node -> numbers.count(node, key, least, most).orElse(otherwise))
        .orElse(otherwise);
  }

  private Optional<String> word(Node node, String key, List<String> words) {
    return word(node, key, words, problems);
  }

  /** One of a few words. */
  static Optional<String> word(Node node, String key, List<String> words, Problems problems) {
    int last = words.size() - 1;
    String wanted = String.join(", ", words.subList(0, last)) + " or " + words.get(last);
    Optional<String> word =
        new Texts(problems).text(node, key, wanted).map(text -> text.text().strip());
    if (word.isPresent() && !words.contains(word.get())) {
      problems.error(
          node.at(),
          node.saidOf(key),
          wanted,
          Nearest.to(word.get(), words).map(near -> "Did you mean '" + near + "'?").orElse(""));
      return Optional.empty();
    }
    return word;
  }

  /** A key that says nothing for this kind of fixture would only mislead. */
  private void only(Fields fields, Optional<String> kind, String key, String with) {
    if (fields.has(key) && kind.isPresent() && !kind.get().equals(with)) {
      problems.error(
          fields.entry(key).orElseThrow().key().at(),
          "'" + key + "' has no meaning for a " + kind.get() + " fixture",
          "'" + key + "' with kind: " + with + " only",
          "Delete it");
    }
  }
}
