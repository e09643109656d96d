package cardproof.files;

import cardproof.bits.Expression;
import cardproof.card.Behaviour;
import cardproof.card.Bus;
import cardproof.card.CardScope;
import cardproof.card.OutputLoopException;
import cardproof.card.Role;
import cardproof.card.State;
import cardproof.text.Nearest;
import cardproof.text.Position;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;

/** What a card puts on its outputs and shared buses. */
final class BehaviourReader {
  private final Problems problems;
  private final List<Bus> buses;
  private final CardScope scope;
  private final Map<Integer, Expression> outputs = new HashMap<>();
  private final Map<Integer, Position> places = new HashMap<>();

  BehaviourReader(List<Bus> buses, CardScope scope, Problems problems) {
    this.problems = problems;
    this.buses = buses;
    this.scope = scope;
  }

  void read(Node section) {
    if (!(section instanceof Node.Mapping map)) {
      problems.error(
          section.at(),
          section.saidOf("behaviour"),
          "a map with an expression for each output, such as S: A + B + CI",
          "");
      return;
    }
    map.entries().forEach(this::output);
  }

  private void output(Node.Entry entry) {
    Expressions expressions = new Expressions(problems);
    Optional<Node.Text> text = expressions.text(entry);
    Optional<Expression> expression = text.flatMap(t -> expressions.compile(t, scope));
    int bus = watched(entry.key());
    if (bus >= 0) {
      places.put(bus, entry.value().at());
      expression.ifPresent(e -> outputs.put(bus, e));
    }
  }

  private int watched(Node.Text name) {
    int index =
        IntStream.range(0, buses.size())
            .filter(i -> buses.get(i).name().equals(name.text()))
            .findFirst()
            .orElse(-1);
    List<String> known = buses.stream().filter(b -> b.role().watched()).map(Bus::name).toList();
    if (index < 0) {
      boolean state = scope.slotOf(name.text()) >= 0;
      problems.error(
          name.at(),
          state
              ? name.described() + " is a state, whose next value stands under 'state'"
              : "the card has no output or shared bus " + name.described(),
          "an output or a shared bus",
          state ? "" : Nearest.hint(name.text(), known));
    } else if (!buses.get(index).role().watched()) {
      problems.error(
          name.at(),
          name.described() + " is an input, which the card does not drive",
          "an output or a shared bus",
          Nearest.listed(known));
      return -1;
    }
    return index;
  }

  /** The behaviour, every circle among outputs said and cut open. */
  Behaviour behaviour(List<State> states) {
    while (true) {
      try {
        return new Behaviour(scope, outputs, states);
      } catch (OutputLoopException loop) {
        problems.error(
            places.get(loop.busIndex()),
            "outputs depend on one another in a circle: " + String.join(" -> ", loop.loop()),
            "outputs that follow from inputs, states and earlier outputs",
            "Name what the card keeps under 'state'");
        outputs.remove(loop.busIndex());
      }
    }
  }

  /** To be called last: outputs that nothing is said of. */
  void warnOfMissing() {
    for (int i = 0; i < buses.size(); i++) {
      if (buses.get(i).role() == Role.OUTPUT && !places.containsKey(i)) {
        problems.warn(
            buses.get(i).at(),
            "output '" + buses.get(i).name() + "' has no behaviour",
            "",
            "Give it an expression under 'behaviour', or plans must say what to expect of it");
      }
    }
  }
}
