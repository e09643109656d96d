package cardproof.files;

import cardproof.plan.Axis;
import cardproof.plan.Expected;
import cardproof.plan.Later;
import cardproof.plan.PatternStep;
import cardproof.plan.Row;
import cardproof.plan.Setting;
import cardproof.plan.Sweep;
import cardproof.plan.Timing;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Collectors;

/** One step that drives patterns. */
final class StepReader {
  static final List<String> KEYS =
      List.of(
          "title",
          "drive",
          "release",
          "each",
          "table",
          "march",
          "pulse",
          "sequence",
          "sweep",
          "power",
          "wait",
          "expect",
          "still",
          "dwell",
          "settle",
          "quiet",
          "watch",
          "tags",
          "sync");

  private static final List<String> DRIVING =
      List.of("drive", "each", "table", "march", "pulse", "sequence", "sweep", "release", "power");
  private static final long DAY_US = 86_400_000_000L;

  private final PlanNames names;
  private final Problems problems;

  StepReader(PlanNames names, Problems problems) {
    this.names = names;
    this.problems = problems;
  }

  PatternStep read(Fields fields, Timing planTiming, CallContext context) {
    SettingReader settings = new SettingReader(names, problems);
    DrivenOnce once = new DrivenOnce(names, problems);
    if (DRIVING.stream().noneMatch(fields::has)) {
      problems.error(
          fields.at(),
          "this step drives nothing",
          "at least one of " + String.join(", ", DRIVING),
          "To look again at a pattern, write its 'drive' again");
    }
    Optional<String> title =
        fields.get("title").flatMap(node -> new Texts(problems).title(node, "title"));
    List<Setting> drive = new ArrayList<>();
    fields.get("drive").ifPresent(n -> drive.addAll(settings.map(n, "drive", once)));
    fields.get("release").ifPresent(n -> drive.addAll(settings.release(n, once)));
    List<Axis> each =
        fields.get("each").map(n -> new AxisReader(names, problems).map(n, once)).orElse(List.of());
    List<Expected> expected =
        fields.get("expect").map(new ExpectReader(names, problems)::map).orElse(List.of());
    List<Row> rows = rows(fields, once, expected);
    // what is pulsed may be driven too: the pulse leaves from there and comes back to it
    List<Setting> pulse =
        fields
            .get("pulse")
            .map(n -> settings.map(n, "pulse", new DrivenOnce(names, problems)))
            .orElse(List.of());
    Timing timing = new TimingReader(names.card(), problems).read(fields, planTiming);
    List<Later> sequence = sequence(fields, timing);
    // what is set at 0 comes with the pattern; that it may say again what 'drive' said is meant
    if (!sequence.isEmpty() && sequence.get(0).atUs() == 0) {
      List<Setting> first = sequence.get(0).settings();
      drive.addAll(first);
      sequence = sequence.subList(1, sequence.size());
    }
    Optional<Sweep> sweep =
        fields
            .get("sweep")
            .flatMap(n -> new SweepReader(names, problems).read(fields, n, timing, drive));
    PatternStep step =
        new PatternStep(
            fields.at(),
            context.titled(title.orElseGet(() -> made(fields))),
            drive,
            each,
            rows,
            pulse,
            expected,
            still(fields, settings),
            timing,
            context.marks(new Tags(problems).read(fields), fields.get("sync").flatMap(this::sync)),
            sequence,
            dwellUs(fields, timing),
            sweep,
            new PowerReader(problems).read(fields, timing));
    warnOfLength(step);
    return step;
  }

  private List<Row> rows(Fields fields, DrivenOnce once, List<Expected> expected) {
    if (fields.has("march")) {
      for (String other : List.of("table", "pulse", "expect")) {
        fields.entry(other).ifPresent(entry -> besideMarch(entry.key()));
      }
      return new MarchReader(names, problems).rows(fields.get("march").orElseThrow(), once);
    }
    return fields
        .get("table")
        .map(n -> new TableReader(names, problems).rows(n, once, expected))
        .orElse(List.of());
  }

  private List<Later> sequence(Fields fields, Timing timing) {
    if (fields.get("sequence").isEmpty()) {
      return List.of();
    }
    for (String other : List.of("march", "pulse", "table", "each")) {
      fields.entry(other).ifPresent(entry -> besideSequence(entry.key()));
    }
    return new SequenceReader(names, problems).read(fields.get("sequence").orElseThrow(), timing);
  }

  private void besideSequence(Node.Text key) {
    problems.error(
        key.at(),
        key.described() + " stands beside 'sequence', which says itself what is set and when",
        "one of them in a step, 'drive' and 'release' apart",
        "Make two steps of it");
  }

  private long dwellUs(Fields fields, Timing timing) {
    Optional<Node> node = fields.get("dwell");
    long dwellUs =
        node.map(n -> Quantity.TIME.read(n, "dwell", 1, LimitsReader.LONGEST_WATCH_US, problems))
            .orElse(OptionalLong.empty())
            .orElse(0);
    if (names.card().isPresent() && dwellUs > timing.watchUs()) {
      problems.error(
          node.orElseThrow().at(),
          "a dwell of "
              + Quantity.TIME.text(dwellUs)
              + ", and the step is watched for "
              + Quantity.TIME.text(timing.watchUs()),
          "a dwell that lies within the step",
          "Write a longer 'watch' in this step if the card may take that long");
    }
    return dwellUs;
  }

  private void besideMarch(Node.Text key) {
    problems.error(
        key.at(),
        key.described()
            + " stands beside 'march', which says itself what is set and what comes back",
        "one of them in a step",
        "Make two steps of it");
  }

  private Optional<Boolean> sync(Node node) {
    if (node instanceof Node.Text text && List.of("true", "false").contains(text.text().strip())) {
      return Optional.of(text.text().strip().equals("true"));
    }
    problems.error(
        node.at(),
        node.saidOf("sync"),
        "true or false: whether the step establishes all that the card keeps",
        "");
    return Optional.empty();
  }

  private long[] still(Fields fields, SettingReader settings) {
    long[] still = new long[names.card().map(card -> card.buses().size()).orElse(0)];
    fields
        .get("still")
        .ifPresent(
            node ->
                settings
                    .names(node, "still", "buses, lines such as S[3], or printed labels")
                    .forEach(name -> names.still(name, still)));
    return still;
  }

  /** {@code drive A, B; each C; pulse LD}. */
  private static String made(Fields fields) {
    return DRIVING.stream()
        .filter(fields::has)
        .map(key -> key + " " + named(key, fields.get(key).orElseThrow()))
        .map(String::strip)
        .collect(Collectors.joining("; "));
  }

  private static String named(String key, Node node) {
    if (key.equals("sweep")) {
      return SweepReader.kindName(node);
    }
    return key.equals("march") ? MarchReader.testName(node) : named(node);
  }

  private static String named(Node node) {
    if (node instanceof Node.Listing list) {
      return list.items().stream().map(StepReader::named).collect(Collectors.joining(", "));
    }
    if (node instanceof Node.Mapping map) {
      Optional<Node> columns =
          map.entries().stream()
              .filter(entry -> entry.key().text().equals("drive"))
              .map(Node.Entry::value)
              .findFirst();
      return columns
          .map(StepReader::named)
          .orElseGet(
              () ->
                  map.entries().stream()
                      .map(entry -> entry.key().text())
                      .collect(Collectors.joining(", ")));
    }
    return ((Node.Text) node).text();
  }

  private void warnOfLength(PatternStep step) {
    long count = step.vectorCount();
    long eachUs = step.timing().quietUs();
    if (names.card().isPresent() && count > DAY_US / eachUs) {
      problems.warn(
          step.at(),
          "this step stands for "
              + (count == Long.MAX_VALUE ? "more than 9 x 10^18" : Long.toString(count))
              + " vectors, which at "
              + Quantity.TIME.text(eachUs)
              + " or more each take longer than a day",
          "",
          "Take fewer, such as {random: 1000}, unless that is meant");
    }
  }
}
