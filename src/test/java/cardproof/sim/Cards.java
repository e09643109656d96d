package cardproof.sim;

import cardproof.bits.Expression;
import cardproof.bits.Literal;
import cardproof.card.Behaviour;
import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.card.CardScope;
import cardproof.card.Limits;
import cardproof.card.Pin;
import cardproof.card.RelayFigures;
import cardproof.card.Role;
import cardproof.card.Sharing;
import cardproof.card.State;
import cardproof.card.Supply;
import cardproof.text.Position;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;

/** Cards for the tests, put together by hand. */
final class Cards {
  static final RelayFigures FIGURES = new RelayFigures(2, 15_000, 18_000, 8_000);
  private static final Position HERE = new Position("card.yaml", 1, 1);

  private final String name;
  private final List<Bus> buses = new ArrayList<>();
  private final Map<String, Integer> states = new HashMap<>();
  private final Map<String, String> outputs = new HashMap<>();
  private final List<String[]> nexts = new ArrayList<>();
  private RelayFigures figures = FIGURES;

  private Cards(String name) {
    this.name = name;
  }

  static Cards named(String name) {
    return new Cards(name);
  }

  /** Adder of this width: S and CO from A, B and CI. */
  static Card sum(int width) {
    return named("sum")
        .bus("A", width, Role.INPUT)
        .bus("B", width, Role.INPUT)
        .bus("CI", 1, Role.INPUT)
        .output("S", width, "A + B + CI")
        .output("CO", 1, "(A + B + CI) >> " + width)
        .card();
  }

  /** A register that takes D while LD is 1 and puts it out while SEL is 1. */
  static Card hold() {
    return named("hold")
        .bus("D", 12, Role.INPUT)
        .bus("LD", 1, Role.INPUT)
        .bus("SEL", 1, Role.INPUT)
        .output("Q", 12, "SEL ? R : 0")
        .state("R", 12, "0", "LD ? D : R")
        .card();
  }

  static Card plusOne(int width) {
    return named("hour").bus("I", width, Role.INPUT).output("Y", width, "I + 1").card();
  }

  /** A counting chain that feeds itself while RUN is 1, with no register between. */
  static Card fedBack() {
    return named("hour")
        .bus("RUN", 1, Role.INPUT)
        .output("Y", 4, "C")
        .state("C", 4, "0", "RUN ? C + 1 : 0")
        .card();
  }

  /** Puts its input on a shared bus while SEL is 1, and shows what the bus carries. */
  static Card onBus() {
    return named("pick")
        .bus("D", 4, Role.INPUT)
        .bus("SEL", 1, Role.INPUT)
        .shared("BUS", 4, "SEL ? D : 0")
        .output("SEEN", 4, "BUS")
        .card();
  }

  Cards figures(RelayFigures others) {
    figures = others;
    return this;
  }

  Cards bus(String bus, int width, Role role) {
    List<Pin> pins =
        IntStream.rangeClosed(1, width)
            .mapToObj(pin -> new Pin("J" + (buses.size() + 1), pin))
            .toList();
    buses.add(new Bus(bus, role, width, pins, List.of(), Sharing.WIRED_OR, HERE));
    return this;
  }

  Cards output(String bus, int width, String behaviour) {
    outputs.put(bus, behaviour);
    return bus(bus, width, Role.OUTPUT);
  }

  Cards shared(String bus, int width, String behaviour) {
    outputs.put(bus, behaviour);
    return bus(bus, width, Role.SHARED);
  }

  Cards state(String state, int width, String powerOn, String next) {
    states.put(state, width);
    nexts.add(new String[] {state, powerOn, next});
    return this;
  }

  Card card() {
    CardScope scope = new CardScope(buses);
    nexts.forEach(state -> scope.addState(state[0], states.get(state[0])));
    List<State> all = new ArrayList<>();
    for (String[] state : nexts) {
      all.add(
          new State(
              state[0],
              states.get(state[0]),
              Literal.parse(state[1]),
              Expression.compile(state[2], scope),
              HERE));
    }
    Map<Integer, Expression> compiled = new HashMap<>();
    outputs.forEach(
        (bus, text) -> compiled.put(scope.slotOf(bus), Expression.compile(text, scope)));
    return new Card(
        name,
        name,
        new Supply(12_000, 3_000),
        buses,
        new Behaviour(scope, compiled, all),
        new Limits(350_000, Map.of(), 65_000, 415_000, Limits.DEFAULT_HOLD_MS),
        figures,
        HERE);
  }

  /** Indexes of the lines of a role, in the card's order, as a fixture's channels have them. */
  static int[] driven(Card card) {
    return card.lines().stream()
        .filter(line -> line.bus().role().driven())
        .mapToInt(line -> line.index())
        .toArray();
  }

  static int[] watched(Card card) {
    return card.lines().stream()
        .filter(line -> line.bus().role().watched())
        .mapToInt(line -> line.index())
        .toArray();
  }
}
