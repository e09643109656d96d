package cardproof.files;

import cardproof.bits.Literal;
import cardproof.card.CardScope;
import cardproof.card.State;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What a card keeps. Names and widths come first, since next values may read any of them. */
final class StatesReader {
  static final List<String> KEYS = List.of("width", "power-on", "next");

  private record Declared(Node.Text name, Optional<Fields> fields, int width) {}

  private final Problems problems;
  private final List<Declared> declared = new ArrayList<>();

  StatesReader(Problems problems) {
    this.problems = problems;
  }

  /** Adds every state to the scope. */
  void declare(Node section, CardNames names, CardScope scope) {
    if (!(section instanceof Node.Mapping map)) {
      problems.error(
          section.at(),
          section.saidOf("state"),
          "a map of states, such as Q: {width: 12, next: \"LD ? D : Q\"}",
          "");
      return;
    }
    for (Node.Entry entry : map.entries()) {
      if (names.claim(entry.key(), "a state")) {
        String name = entry.key().text();
        Optional<Fields> fields = Fields.of(entry.value(), "state '" + name + "'", KEYS, problems);
        int width =
            (int)
                fields
                    .flatMap(f -> f.get("width"))
                    .map(node -> new Numbers(problems).count(node, "width", 1, 64).orElse(1))
                    .orElse(1L)
                    .longValue();
        declared.add(new Declared(entry.key(), fields, width));
        scope.addState(name, width);
      }
    }
  }

  /** The states, in the order in which they were added to the scope. */
  List<State> states(CardScope scope) {
    List<State> states = new ArrayList<>();
    for (Declared state : declared) {
      state.fields().flatMap(fields -> state(state, fields, scope)).ifPresent(states::add);
    }
    return states;
  }

  private Optional<State> state(Declared state, Fields fields, CardScope scope) {
    Optional<Literal> powerOn =
        fields
            .get("power-on")
            .map(node -> powerOn(node, state))
            .orElseGet(() -> Optional.of(allUnknown(state.width())));
    Expressions expressions = new Expressions(problems);
    fields.require("next", "its next value, such as next: \"LD ? D : Q\"");
    return fields
        .entry("next")
        .flatMap(expressions::text)
        .flatMap(text -> expressions.compile(text, scope))
        .filter(next -> powerOn.isPresent())
        .map(
            next ->
                new State(
                    state.name().text(),
                    state.width(),
                    powerOn.orElseThrow(),
                    next,
                    state.name().at()));
  }

  private Optional<Literal> powerOn(Node node, Declared state) {
    Numbers numbers = new Numbers(problems);
    Optional<Node.Text> text =
        new Texts(problems).text(node, "power-on", "a number, x for bits that cannot be known");
    if (text.isPresent() && text.get().text().equals("x")) {
      return Optional.of(allUnknown(state.width()));
    }
    String of = "state '" + state.name().text() + "'";
    return text.flatMap(t -> numbers.literal(t, ""))
        .filter(literal -> numbers.fits(text.orElseThrow(), literal, state.width(), of))
        .map(literal -> cut(literal, state.width()));
  }

  /** Digits may reach beyond the width, as a hexadecimal one does on a state of 5 bits. */
  private static Literal cut(Literal literal, int width) {
    long mask = -1L >>> (64 - width);
    return new Literal(literal.value() & mask, literal.unknown() & mask, width);
  }

  private static Literal allUnknown(int width) {
    return new Literal(0, -1L >>> (64 - width), width);
  }
}
