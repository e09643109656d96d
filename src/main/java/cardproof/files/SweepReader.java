package cardproof.files;

import cardproof.card.Card;
import cardproof.plan.Setting;
import cardproof.plan.Sweep;
import cardproof.plan.SweepKind;
import cardproof.plan.SweepRange;
import cardproof.plan.Target;
import cardproof.plan.Timing;
import cardproof.text.Nearest;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Stream;

/** {@code sweep: {find: set-up, data: D, edge: {LD: 0}}}: one time of a register, tried out. */
final class SweepReader {
  static final List<String> KEYS =
      List.of("find", "data", "edge", "out", "from", "to", "resolution", "at-most", "points");

  private static final String OWNER = "the sweep";
  private static final List<String> KINDS =
      Stream.of(SweepKind.values()).map(SweepKind::word).toList();

  /** What a sweep says itself, or cannot have. */
  private static final List<String> OTHERS =
      List.of(
          "each",
          "table",
          "march",
          "pulse",
          "sequence",
          "dwell",
          "expect",
          "still",
          "sync",
          "power",
          "wait");

  private final PlanNames names;
  private final Problems problems;

  SweepReader(PlanNames names, Problems problems) {
    this.names = names;
    this.problems = problems;
  }

  /** What a step is called after that has no title. */
  static String kindName(Node node) {
    return node instanceof Node.Mapping map
        ? map.entries().stream()
            .filter(entry -> entry.key().text().equals("find"))
            .map(entry -> entry.value() instanceof Node.Text text ? text.text() : "")
            .findFirst()
            .orElse("")
        : "";
  }

  /**
   * @param step the keys around it
   * @param timing of a vector of the step
   * @param drive what the step sets beside it
   */
  Optional<Sweep> read(Fields step, Node node, Timing timing, List<Setting> drive) {
    OTHERS.forEach(other -> step.entry(other).ifPresent(entry -> beside(entry.key())));
    return Fields.of(node, OWNER, KEYS, problems).flatMap(fields -> read(fields, timing, drive));
  }

  private void beside(Node.Text key) {
    problems.error(
        key.at(),
        key.described()
            + " stands beside 'sweep', which says itself what is set and what comes back",
        "'drive', 'release', 'settle', 'quiet', 'watch' and 'tags' beside it",
        "Make two steps of it");
  }

  private Optional<Sweep> read(Fields fields, Timing timing, List<Setting> drive) {
    Optional<SweepKind> kind =
        fields.require("find", "find: set-up, hold or pulse").flatMap(this::kind);
    Optional<Target> data = data(fields);
    Optional<Setting> edge =
        fields
            .require("edge", "edge: {LD: 0}, the line that has the data taken and where it goes")
            .flatMap(this::edge);
    Optional<Target> out = out(fields, data);
    Optional<SweepRange> range =
        kind.flatMap(k -> new SweepTimes(names, problems).range(fields, k, timing));
    OptionalLong atMostUs =
        range
            .map(r -> new SweepTimes(names, problems).atMostUs(fields, r))
            .orElse(OptionalLong.empty());
    int lines = data.map(names::width).orElse(1);
    OptionalLong points = range.map(r -> points(fields, r, lines)).orElse(OptionalLong.empty());
    if (!holdsState(fields, out)
        || kind.isEmpty()
        || data.isEmpty()
        || edge.isEmpty()
        || range.isEmpty()
        || points.isEmpty()
        || overlaps(fields, data.get(), edge.get(), drive)) {
      return Optional.empty();
    }
    return new SweepTimes(names, problems)
        .sweep(
            fields,
            kind.get(),
            data.get(),
            out,
            edge.get(),
            range.get(),
            atMostUs,
            (int) points.getAsLong(),
            timing);
  }

  private Optional<SweepKind> kind(Node node) {
    String wanted = "one of " + String.join(", ", KINDS);
    Optional<Node.Text> text = new Texts(problems).text(node, "find", wanted);
    Optional<SweepKind> kind =
        text.flatMap(
            word ->
                Stream.of(SweepKind.values())
                    .filter(one -> one.word().equals(word.text().strip()))
                    .findFirst());
    if (text.isPresent() && kind.isEmpty()) {
      problems.error(
          node.at(), text.get().saidOf("find"), wanted, Nearest.hint(text.get().text(), KINDS));
    }
    return kind;
  }

  private Optional<Target> data(Fields fields) {
    return fields
        .require("data", "data: D, the bus or line that is taken")
        .flatMap(node -> new Texts(problems).text(node, "data", "the name of a bus or line"))
        .flatMap(names::driven);
  }

  private Optional<Target> out(Fields fields, Optional<Target> data) {
    Optional<Node> node = fields.get("out");
    Optional<Target> out =
        node.flatMap(n -> new Texts(problems).text(n, "out", "the name of a bus or line"))
            .flatMap(names::watched);
    if (out.isPresent() && data.isPresent() && names.width(out.get()) != names.width(data.get())) {
      problems.error(
          node.orElseThrow().at(),
          names.of(out.get())
              + " is "
              + names.width(out.get())
              + " bits wide, and "
              + names.of(data.get())
              + " is "
              + names.width(data.get()),
          "lines that show what is taken, as many as are taken",
          "");
    }
    return out;
  }

  /** One line and where it goes. */
  private Optional<Setting> edge(Node node) {
    List<Setting> settings =
        new SettingReader(names, problems).map(node, "edge", new DrivenOnce(names, problems));
    boolean good =
        settings.size() == 1 && !settings.get(0).released() && bits(settings.get(0)) == 1;
    if (!good && !settings.isEmpty()) {
      problems.error(
          node.at(),
          "'edge' is of no single line that goes to 0 or to 1",
          "one line and where it goes, such as edge: {LD: 0}",
          "");
    }
    return good ? Optional.of(settings.get(0)) : Optional.empty();
  }

  private int bits(Setting setting) {
    return Long.bitCount(setting.mask() & names.bus(setting.busIndex()).mask());
  }

  private OptionalLong points(Fields fields, SweepRange range, int lines) {
    int least = Sweep.leastPoints(range);
    return fields
        .get("points")
        .map(node -> names.numbers().count(node, "points", least, SweepTimes.MOST_POINTS))
        .orElseGet(() -> OptionalLong.of(Sweep.usualPoints(range, lines)));
  }

  private boolean holdsState(Fields fields, Optional<Target> out) {
    if (names.card().isEmpty()) {
      return false;
    }
    Card card = names.card().get();
    if (card.behaviour().isPresent() && !card.hasState()) {
      problems.error(
          fields.at(),
          "card '" + card.name() + "' keeps nothing by its behaviour, so there is no edge to sweep",
          "a card with a 'state'",
          "");
      return false;
    }
    if (card.behaviour().isEmpty() && out.isEmpty()) {
      problems.error(
          fields.at(),
          "card '" + card.name() + "' has no behaviour to say where data shows that was taken",
          "out: Q, the lines that show it",
          "");
      return false;
    }
    return true;
  }

  private boolean overlaps(Fields fields, Target data, Setting edge, List<Setting> drive) {
    Target control = control(edge);
    if (names.overlap(data, control)) {
      problems.error(
          fields.get("edge").orElseThrow().at(),
          names.of(control) + " is data and edge at once",
          "a line that has the data taken",
          "");
      return true;
    }
    for (Setting setting : drive) {
      boolean theirs =
          setting.busIndex() == edge.busIndex() && (setting.mask() & edge.mask()) != 0
              || setting.busIndex() == data.busIndex()
                  && (setting.mask() & data.mask(names.card().orElseThrow())) != 0;
      if (theirs) {
        problems.error(
            fields.at(),
            "the step drives or releases "
                + names.bus(setting.busIndex()).name()
                + ", which its sweep sets itself",
            "other lines",
            "Take it out: data and control line are set before each trial");
        return true;
      }
    }
    return false;
  }

  static Target control(Setting edge, PlanNames names) {
    return names.bus(edge.busIndex()).width() == 1
        ? Target.bus(edge.busIndex())
        : new Target(edge.busIndex(), Long.numberOfTrailingZeros(edge.mask()));
  }

  private Target control(Setting edge) {
    return control(edge, names);
  }
}
