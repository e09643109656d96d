package cardproof.card;

import cardproof.bits.Expression;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What a card is meant to do: an expression for what it puts on each output or shared bus and on
 * what it has inside, and its states. Immutable but for the expressions' scratch space, so one
 * thread at a time.
 */
public final class Behaviour {
  private final CardScope scope;
  private final Map<Integer, Expression> outputs;
  private final List<State> states;
  private final List<Integer> order;

  /**
   * @param outputs by bus index, and by slot for each name inside; buses that are missing are not
   *     predicted
   * @throws OutputLoopException when outputs depend on one another in a circle with no state
   *     between
   */
  public Behaviour(CardScope scope, Map<Integer, Expression> outputs, List<State> states) {
    this.scope = scope;
    this.outputs = Map.copyOf(outputs);
    this.states = List.copyOf(states);
    this.order = inOrder();
  }

  public List<State> states() {
    return states;
  }

  public CardScope scope() {
    return scope;
  }

  public boolean predicts(int busIndex) {
    return outputs.containsKey(busIndex);
  }

  /** Whether any output or next state hangs on a bus. */
  public boolean isRead(int busIndex) {
    return outputs.values().stream().anyMatch(output -> output.slots().get(busIndex))
        || states.stream().anyMatch(state -> state.next().slots().get(busIndex));
  }

  /** What the card puts on a bus that it {@link #predicts}, or on a slot inside. */
  public Expression output(int slot) {
    return outputs.get(slot);
  }

  /** Slots of the outputs and of what is inside, each after all of those that it reads. */
  List<Integer> order() {
    return order;
  }

  /** Slot of the first state; the others follow in order. */
  public int firstStateSlot() {
    return scope.size() - states.size();
  }

  /** The circle by which the given slots feed one another, as names; empty when there is none. */
  Optional<List<String>> loopThrough(BitSet slots) {
    return Loops.find(slots, slot -> reads(slot)).map(this::names);
  }

  /** Slots of the scope that an output's or a state's expression reads; none where it has none. */
  public BitSet reads(int slot) {
    Expression expression =
        slot >= firstStateSlot() ? states.get(slot - firstStateSlot()).next() : outputs.get(slot);
    return expression == null ? new BitSet() : expression.slots();
  }

  private List<Integer> inOrder() {
    BitSet combinational = new BitSet();
    outputs.keySet().forEach(combinational::set);
    Optional<List<Integer>> loop = Loops.find(combinational, this::reads);
    if (loop.isPresent()) {
      throw new OutputLoopException(loop.get().get(0), names(loop.get()));
    }
    List<Integer> sorted = new ArrayList<>();
    Map<Integer, Boolean> placed = new HashMap<>();
    combinational.stream().forEach(bus -> place(bus, placed, sorted));
    return List.copyOf(sorted);
  }

  private void place(int bus, Map<Integer, Boolean> placed, List<Integer> sorted) {
    if (!outputs.containsKey(bus) || placed.putIfAbsent(bus, true) != null) {
      return;
    }
    reads(bus).stream().forEach(read -> place(read, placed, sorted));
    sorted.add(bus);
  }

  private List<String> names(List<Integer> slots) {
    return slots.stream().map(scope::nameOf).toList();
  }
}
