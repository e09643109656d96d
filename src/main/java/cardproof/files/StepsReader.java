package cardproof.files;

import cardproof.plan.RepeatStep;
import cardproof.plan.Step;
import cardproof.plan.Timing;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;

/** A plan's steps, nested ones included. */
final class StepsReader {
  private static final long MOST_TIMES = 1_000_000_000;
  static final List<String> REPEAT_KEYS = List.of("repeat", "title", "tags", "steps");

  private final Problems problems;
  private final PlanNames names;
  private final StepReader patterns;
  private final CallReader calls;
  private final Timing timing;

  StepsReader(PlanNames names, Library library, Timing timing, Problems problems) {
    this.problems = problems;
    this.names = names;
    this.calls = new CallReader(library, this, problems);
    this.patterns = new StepReader(names, problems);
    this.timing = timing;
  }

  List<Step> read(Node node) {
    return read(node, CallContext.TOP);
  }

  CallReader calls() {
    return calls;
  }

  private List<Step> read(Node node, CallContext context) {
    List<Step> steps = new ArrayList<>();
    if (!(node instanceof Node.Listing list) || list.items().isEmpty()) {
      noSteps(node, problems);
      return steps;
    }
    list.items().forEach(item -> steps.addAll(step(item, context)));
    return steps;
  }

  static void noSteps(Node node, Problems problems) {
    problems.error(
        node.at(),
        node instanceof Node.Listing ? "'steps' is empty" : node.saidOf("steps"),
        "a list of steps, each beginning with '- ', such as - drive: {A: 0}",
        "");
  }

  /** One step, or those that a call stands for; none where it cannot be read. */
  List<Step> step(Node item, CallContext context) {
    if (!(item instanceof Node.Mapping map)) {
      problems.error(
          item.at(),
          item.described() + " stands where a step should",
          "a step, such as - drive: {A: 0}",
          "");
      return List.of();
    }
    List<String> keys = map.entries().stream().map(entry -> entry.key().text()).toList();
    if (keys.contains("call")) {
      refuseBeside(map, "'call'", CallReader.KEYS, "Make a step of its own of it");
      return Fields.of(map, "this call", CallReader.KEYS, problems)
          .map(fields -> calls.read(fields, context))
          .orElse(List.of());
    }
    if (keys.contains("repeat") || keys.contains("steps")) {
      refuseBeside(
          map,
          "'repeat' or 'steps'",
          REPEAT_KEYS,
          "Put it into one of the steps that are repeated");
      return Fields.of(map, "this group of steps", REPEAT_KEYS, problems)
          .map(fields -> List.of(repeated(fields, context)))
          .orElse(List.of());
    }
    List<String> known = new ArrayList<>(StepReader.KEYS);
    known.add("repeat");
    known.add("call");
    return Fields.of(item, "this step", known, problems)
        .map(fields -> List.<Step>of(patterns.read(fields, timing, context)))
        .orElse(List.of());
  }

  /** Keys that a step of patterns may have, where one of another kind has them. */
  private void refuseBeside(Node.Mapping map, String beside, List<String> known, String next) {
    for (Node.Entry entry : map.entries()) {
      if (StepReader.KEYS.contains(entry.key().text()) && !known.contains(entry.key().text())) {
        problems.error(
            entry.key().at(),
            entry.key().described() + " stands beside " + beside,
            "one of " + String.join(", ", known),
            next);
        problems.silence(entry.key().at());
      }
    }
  }

  private Step repeated(Fields fields, CallContext context) {
    OptionalLong times =
        fields
            .require("repeat", "repeat: 3, how often its steps are gone through")
            .map(node -> names.numbers().count(node, "repeat", 1, MOST_TIMES))
            .orElse(OptionalLong.empty());
    Optional<String> title =
        fields.get("title").flatMap(node -> new Texts(problems).title(node, "title"));
    Set<String> tags = new Tags(problems).read(fields);
    List<Step> steps =
        fields
            .require("steps", "steps: with a list of steps below it")
            .map(node -> read(node, context.tagged(tags)))
            .orElse(List.of());
    return new RepeatStep(
        fields.at(),
        context.titled(title.orElse("repeat " + times.orElse(1) + " times")),
        times.orElse(1),
        steps,
        context.union(tags));
  }
}
