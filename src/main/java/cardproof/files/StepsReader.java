package cardproof.files;

import cardproof.plan.RepeatStep;
import cardproof.plan.Step;
import cardproof.plan.Timing;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/** A plan's steps, nested ones included. */
final class StepsReader {
  private static final long MOST_TIMES = 1_000_000_000;
  static final List<String> REPEAT_KEYS = List.of("repeat", "title", "steps");

  private final Problems problems;
  private final StepReader patterns;
  private final Timing timing;

  StepsReader(PlanNames names, Timing timing, Problems problems) {
    this.problems = problems;
    this.patterns = new StepReader(names, problems);
    this.timing = timing;
  }

  List<Step> read(Node node) {
    List<Step> steps = new ArrayList<>();
    if (!(node instanceof Node.Listing list) || list.items().isEmpty()) {
      problems.error(
          node.at(),
          node instanceof Node.Listing ? "'steps' is empty" : node.saidOf("steps"),
          "a list of steps, each beginning with '- ', such as - drive: {A: 0}",
          "");
      return steps;
    }
    for (Node item : list.items()) {
      step(item).ifPresent(steps::add);
    }
    return steps;
  }

  private Optional<Step> step(Node item) {
    if (!(item instanceof Node.Mapping map)) {
      problems.error(
          item.at(),
          item.described() + " stands where a step should",
          "a step, such as - drive: {A: 0}",
          "");
      return Optional.empty();
    }
    List<String> keys = map.entries().stream().map(entry -> entry.key().text()).toList();
    if (keys.contains("repeat") || keys.contains("steps")) {
      return repeat(map);
    }
    List<String> known = new ArrayList<>(StepReader.KEYS);
    known.add("repeat");
    return Fields.of(item, "this step", known, problems)
        .map(fields -> patterns.read(fields, timing));
  }

  private Optional<Step> repeat(Node.Mapping map) {
    for (Node.Entry entry : map.entries()) {
      if (StepReader.KEYS.contains(entry.key().text())
          && !REPEAT_KEYS.contains(entry.key().text())) {
        problems.error(
            entry.key().at(),
            entry.key().described() + " stands beside 'repeat' or 'steps'",
            "one of " + String.join(", ", REPEAT_KEYS),
            "Put it into one of the steps that are repeated");
        problems.silence(entry.key().at());
      }
    }
    return Fields.of(map, "this group of steps", REPEAT_KEYS, problems).map(this::repeated);
  }

  private Step repeated(Fields fields) {
    OptionalLong times =
        fields
            .require("repeat", "repeat: 3, how often its steps are gone through")
            .map(node -> new Numbers(problems).count(node, "repeat", 1, MOST_TIMES))
            .orElse(OptionalLong.empty());
    Optional<String> title =
        fields.get("title").flatMap(node -> new Texts(problems).title(node, "title"));
    List<Step> steps =
        fields
            .require("steps", "steps: with a list of steps below it")
            .map(this::read)
            .orElse(List.of());
    return new RepeatStep(
        fields.at(), title.orElse("repeat " + times.orElse(1) + " times"), times.orElse(1), steps);
  }
}
