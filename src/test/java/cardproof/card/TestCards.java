package cardproof.card;

import cardproof.bits.Expression;
import cardproof.bits.Literal;
import cardproof.text.Position;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;

/** Small cards put together in code, for tests that are not about files. */
public final class TestCards {
  private static final Position HERE = new Position("test", 1, 1);

  private final List<Bus> buses = new ArrayList<>();
  private final List<String[]> states = new ArrayList<>();
  private final Map<String, String> behaviour = new HashMap<>();
  private RelayFigures relays = new RelayFigures(1, 15_000, 18_000, 8_000);
  private long settleUs = 200_000;

  public static TestCards card() {
    return new TestCards();
  }

  public TestCards input(String name, int width) {
    return bus(name, Role.INPUT, width, Sharing.WIRED_OR);
  }

  public TestCards output(String name, int width, String expression) {
    behaviour.put(name, expression);
    return bus(name, Role.OUTPUT, width, Sharing.WIRED_OR);
  }

  /** An output that nothing predicts. */
  public TestCards output(String name, int width) {
    return bus(name, Role.OUTPUT, width, Sharing.WIRED_OR);
  }

  public TestCards shared(String name, int width, Sharing sharing, String expression) {
    behaviour.put(name, expression);
    return bus(name, Role.SHARED, width, sharing);
  }

  public TestCards state(String name, int width, String powerOn, String next) {
    states.add(new String[] {name, Integer.toString(width), powerOn, next});
    return this;
  }

  public TestCards relays(RelayFigures figures) {
    relays = figures;
    return this;
  }

  public TestCards settleUs(long limitUs) {
    settleUs = limitUs;
    return this;
  }

  private TestCards bus(String name, Role role, int width, Sharing sharing) {
    String connector = "J" + (buses.size() + 1);
    List<Pin> pins = IntStream.rangeClosed(1, width).mapToObj(n -> new Pin(connector, n)).toList();
    buses.add(new Bus(name, role, width, pins, List.of(), sharing, HERE));
    return this;
  }

  public Card build() {
    CardScope scope = new CardScope(buses);
    states.forEach(state -> scope.addState(state[0], Integer.parseInt(state[1])));
    Map<Integer, Expression> outputs = new HashMap<>();
    behaviour.forEach(
        (name, text) -> outputs.put(scope.slotOf(name), Expression.compile(text, scope)));
    List<State> kept =
        states.stream()
            .map(
                state ->
                    new State(
                        state[0],
                        Integer.parseInt(state[1]),
                        Literal.parse(state[2]),
                        Expression.compile(state[3], scope),
                        HERE))
            .toList();
    long quietUs = relays.quietFloorUs();
    return new Card(
        "test",
        "test card",
        new Supply(12_000, 3_000),
        buses,
        new Behaviour(scope, outputs, kept),
        new Limits(settleUs, Map.of(), quietUs, settleUs + quietUs, Limits.DEFAULT_HOLD_MS),
        relays,
        HERE);
  }
}
