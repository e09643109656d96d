package cardproof.files;

import cardproof.text.Nearest;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;

/** One procedure as it is written; its steps are read where it is called. */
final class ProcedureReader {
  static final List<String> KEYS = List.of("arguments", "steps");

  private final PlanWords words;
  private final Problems problems;

  ProcedureReader(PlanWords words, Problems problems) {
    this.words = words;
    this.problems = problems;
  }

  Optional<Procedure> read(Node.Entry entry) {
    boolean free = words.claimProcedure(entry.key());
    String name = entry.key().text();
    Optional<Fields> fields = Fields.of(entry.value(), "procedure '" + name + "'", KEYS, problems);
    Map<String, Optional<String>> arguments = new LinkedHashMap<>();
    fields.flatMap(f -> f.get("arguments")).ifPresent(node -> arguments(node, arguments));
    Optional<List<Node>> steps =
        fields
            .flatMap(f -> f.require("steps", "steps: with a list of steps below it"))
            .flatMap(this::steps);
    int problemsBefore = problems.count();
    steps.ifPresent(body -> body.forEach(node -> checkNames(node, arguments)));
    return free && steps.isPresent() && problems.count() == problemsBefore
        ? Optional.of(new Procedure(name, entry.key().at(), arguments, steps.get()))
        : Optional.empty();
  }

  private Optional<List<Node>> steps(Node node) {
    if (node instanceof Node.Listing list && !list.items().isEmpty()) {
      return Optional.of(list.items());
    }
    StepsReader.noSteps(node, problems);
    return Optional.empty();
  }

  private void arguments(Node node, Map<String, Optional<String>> arguments) {
    Texts texts = new Texts(problems);
    if (node instanceof Node.Mapping map) {
      for (Node.Entry entry : map.entries()) {
        Optional<String> value =
            texts.text(entry.value(), entry.key().text(), CallReader.VALUE).map(Node.Text::text);
        if (words.isArgument(entry.key())) {
          arguments.put(entry.key().text(), value);
        }
      }
      return;
    }
    List<Node> items = node instanceof Node.Listing list ? list.items() : List.of(node);
    for (Node item : items) {
      Optional<Node.Text> name =
          texts.text(item, "arguments", "names such as [from, to], or {word: 0} with values");
      if (name.isPresent() && words.isArgument(name.get())) {
        if (arguments.putIfAbsent(name.get().text(), Optional.empty()) != null) {
          problems.error(
              item.at(),
              "argument " + name.get().described() + " a second time",
              "every argument once",
              "");
        }
      }
    }
  }

  /** Says which {@code <name>} of the body are no arguments. */
  private void checkNames(Node node, Map<String, Optional<String>> arguments) {
    if (node instanceof Node.Text text) {
      checkNames(text, arguments);
    } else if (node instanceof Node.Listing list) {
      list.items().forEach(item -> checkNames(item, arguments));
    } else if (node instanceof Node.Mapping map) {
      for (Node.Entry entry : map.entries()) {
        checkNames(entry.key(), arguments);
        checkNames(entry.value(), arguments);
      }
    }
  }

  private void checkNames(Node.Text text, Map<String, Optional<String>> arguments) {
    Matcher name = Substitution.NAME.matcher(text.text());
    while (name.find()) {
      if (!arguments.containsKey(name.group(1))) {
        problems.error(
            text.at(name.start()),
            "the procedure has no argument '" + name.group(1) + "'",
            arguments.isEmpty()
                ? "no name in < >, for it takes no arguments"
                : "one of " + String.join(", ", arguments.keySet()),
            Nearest.to(name.group(1), arguments.keySet())
                .map(near -> "Did you mean '<" + near + ">'?")
                .orElse(""));
      }
    }
  }
}
