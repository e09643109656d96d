package cardproof.card.wiring.review;

import cardproof.card.wiring.Wiring;
import java.util.Arrays;
import java.util.BitSet;
import java.util.stream.IntStream;

/**
 * What a wiring's contacts make of the lines that are driven, in two values and no time: a node is
 * on when a way leads to the supply or to a driven line through closed contacts and forward diodes,
 * a coil is fed when one end is on and a way leads from the other to ground. Relays follow their
 * coils in rounds of one stage each, all together, until none moves. Not thread safe.
 *
 * <p>What needs currents is left to simulation: coils in series, a supply at its limit, a coil that
 * only holds. A resistor of up to a third of the smallest coil passes, anything larger is a load.
 */
public final class ContactLogic {
  private static final int MOST_ROUNDS = 100_000;

  private final Circuit circuit;
  private final Lanes lanes;

  /** All relays released and nothing driven, before the first round. */
  public ContactLogic(Wiring wiring) {
    this(new Circuit(wiring));
  }

  ContactLogic(Circuit circuit) {
    if (circuit.supply() == circuit.ground()) {
      throw new IllegalArgumentException("supply and ground are joined by wires and fuses");
    }
    this.circuit = circuit;
    this.lanes = new Lanes(circuit);
    lanes.spread();
  }

  /** Releases every relay and line. */
  public void powerOff() {
    Arrays.fill(lanes.operated(), 0);
    Arrays.fill(lanes.driven(), 0);
    lanes.spread();
  }

  /**
   * Drives these lines and no others, and lets the relays run.
   *
   * @param lines by line index
   * @return whether they came to rest; else they go round for ever, and are as the last round left
   *     them
   */
  public boolean drive(BitSet lines) {
    long[] snapshot = lanes.operated().clone();
    int next = 1;
    for (int rounds = 1; rounds <= MOST_ROUNDS; rounds++) {
      if (!round(lines)) {
        return true;
      }
      // Brent's cycle search: compare with a snapshot that is renewed at every power of two.
      if (Arrays.equals(snapshot, lanes.operated())) {
        return false;
      }
      if (rounds == next) {
        snapshot = lanes.operated().clone();
        next *= 2;
      }
    }
    return false;
  }

  /**
   * One stage only.
   *
   * @return whether some relay moved
   */
  public boolean round(BitSet lines) {
    setLines(lines);
    boolean moved = lanes.round() != 0;
    lanes.spread();
    return moved;
  }

  private void setLines(BitSet lines) {
    for (int line = 0; line < lanes.driven().length; line++) {
      lanes.driven()[line] = lines.get(line) ? Lanes.ALL : 0;
    }
  }

  /**
   * @param relay its place in {@link Wiring#relays}
   */
  public boolean operated(int relay) {
    return lanes.operated()[relay] != 0;
  }

  /** Relays that are operated, by their place in {@link Wiring#relays}. */
  public BitSet operated() {
    BitSet all = new BitSet();
    IntStream.range(0, lanes.operated().length).filter(this::operated).forEach(all::set);
    return all;
  }

  /** Puts relays into these states, whatever their coils say. */
  public void put(BitSet operated) {
    for (int r = 0; r < lanes.operated().length; r++) {
      lanes.operated()[r] = operated.get(r) ? Lanes.ALL : 0;
    }
    lanes.spread();
  }

  /** The same, with these lines driven and no others. */
  void put(BitSet lines, BitSet operated) {
    setLines(lines);
    put(operated);
  }

  /** Whether the relay's coil is fed with relays and lines as they are. */
  public boolean fed(int relay) {
    return lanes.fed(circuit.coil(relay)) != 0;
  }

  /** Whether a net is at the supply's level. */
  public boolean on(int net) {
    return lanes.high(circuit.node(net)) != 0;
  }

  /** Whether supply or a driven line is joined to ground with no load between. */
  public boolean shorted() {
    return lanes.shorted() != 0;
  }

  /** Sum over all coils, lamps and resistors that are fed now. */
  double milliamps(long supplyMillivolts) {
    return circuit.loads().stream()
        .filter(load -> lanes.fed(load) != 0)
        .mapToDouble(load -> load.milliamps(supplyMillivolts))
        .sum();
  }
}
