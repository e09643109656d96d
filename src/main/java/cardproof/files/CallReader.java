package cardproof.files;

import cardproof.plan.Step;
import cardproof.text.Nearest;
import cardproof.text.Position;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** A step that calls a procedure: the procedure's own steps, with the arguments put in. */
final class CallReader {
  static final List<String> KEYS = List.of("call", "with", "title", "tags");
  static final String VALUE = "a number, a name or another single value";

  private final Library library;
  private final StepsReader steps;
  private final Problems problems;

  CallReader(Library library, StepsReader steps, Problems problems) {
    this.library = library;
    this.steps = steps;
    this.problems = problems;
  }

  List<Step> read(Fields fields, CallContext context) {
    Optional<String> title =
        fields.get("title").flatMap(node -> new Texts(problems).title(node, "title"));
    Set<String> tags = new Tags(problems).read(fields);
    Optional<Node.Text> name =
        new Texts(problems)
            .text(fields.get("call").orElseThrow(), "call", "the name of a procedure");
    Optional<Procedure> procedure = name.flatMap(this::procedure);
    if (procedure.isEmpty()) {
      return List.of();
    }
    Optional<Map<String, String>> values = values(fields, procedure.get());
    if (values.isEmpty() || !mayCall(procedure.get(), name.get().at(), context)) {
      return List.of();
    }
    return expand(
        procedure.get(),
        values.get(),
        fields.at(),
        context.tagged(tags).in(procedure.get(), fields.at(), title));
  }

  /** Reads a procedure's steps that nobody calls, to say what is wrong with them. */
  void tryOut(Procedure procedure) {
    expand(
        procedure,
        defaults(procedure),
        procedure.at(),
        CallContext.TOP.in(procedure, procedure.at(), Optional.empty()));
  }

  private Optional<Procedure> procedure(Node.Text name) {
    Optional<Procedure> found = library.procedure(name.text().strip());
    if (found.isEmpty() && !library.isBroken(name.text().strip())) {
      Set<String> known = library.procedureNames();
      problems.error(
          name.at(),
          "there is no procedure " + name.described(),
          "a procedure of this plan or of a file it includes",
          known.isEmpty()
              ? "Write it under 'procedures', or include the file it stands in"
              : Nearest.hint(name.text(), known));
    }
    return found;
  }

  private boolean mayCall(Procedure procedure, Position at, CallContext context) {
    int again = context.procedures().indexOf(procedure.name());
    List<String> chain = new ArrayList<>(context.procedures());
    chain.add(procedure.name());
    if (again >= 0) {
      problems.error(
          at,
          "procedure '"
              + procedure.name()
              + "' calls itself: "
              + String.join(" -> ", chain.subList(again, chain.size())),
          "procedures that come to an end",
          "Use 'repeat' to do a thing again");
      return false;
    }
    if (chain.size() > Budget.DEEPEST) {
      problems.error(
          at,
          "procedures call one another more than "
              + Budget.DEEPEST
              + " deep: "
              + String.join(" -> ", chain),
          "",
          "Call fewer levels of them");
      return false;
    }
    return true;
  }

  private List<Step> expand(
      Procedure procedure, Map<String, String> values, Position call, CallContext inside) {
    library.called(procedure);
    Substitution substitution = new Substitution(values, library.budget(), problems);
    List<Step> expanded = new ArrayList<>();
    problems.enter(call, substitution.changedLines());
    for (Node item : procedure.steps()) {
      library.budget().step();
      Node step = substitution.in(item);
      if (library.budget().spent(inside.outermostCall())) {
        break;
      }
      expanded.addAll(steps.step(step, inside));
    }
    problems.leave();
    return expanded;
  }

  private static Map<String, String> defaults(Procedure procedure) {
    Map<String, String> values = new HashMap<>();
    procedure
        .arguments()
        .forEach((argument, value) -> value.ifPresent(given -> values.put(argument, given)));
    return values;
  }

  /** Empty, with problems said, where not every argument has a value. */
  private Optional<Map<String, String>> values(Fields fields, Procedure procedure) {
    Map<String, String> values = defaults(procedure);
    int problemsBefore = problems.count();
    Optional<Node> with = fields.get("with");
    with.ifPresent(node -> given(node, procedure, values));
    for (String argument : procedure.arguments().keySet()) {
      if (!values.containsKey(argument) && problems.count() == problemsBefore) {
        problems.error(
            fields.at(),
            "procedure '" + procedure.name() + "' needs a value for '" + argument + "'",
            "with: {" + argument + ": ...}",
            "");
        return Optional.empty();
      }
    }
    return problems.count() == problemsBefore ? Optional.of(values) : Optional.empty();
  }

  private void given(Node node, Procedure procedure, Map<String, String> values) {
    Set<String> known = procedure.arguments().keySet();
    if (!(node instanceof Node.Mapping map)) {
      problems.error(
          node.at(), node.saidOf("with"), "a map of arguments, such as with: {word: 5}", "");
      return;
    }
    for (Node.Entry entry : map.entries()) {
      String argument = entry.key().text();
      if (!known.contains(argument)) {
        problems.error(
            entry.key().at(),
            "procedure '" + procedure.name() + "' has no argument " + entry.key().described(),
            known.isEmpty() ? "no 'with', for it takes none" : "one of " + String.join(", ", known),
            Nearest.to(argument, known).map(near -> "Did you mean '" + near + "'?").orElse(""));
        continue;
      }
      new Texts(problems)
          .text(entry.value(), argument, VALUE)
          .ifPresent(text -> values.put(argument, text.text()));
    }
  }
}
