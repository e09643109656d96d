package cardproof.sim;

import cardproof.card.Card;
import cardproof.card.fault.Fault;
import cardproof.sim.circuit.Draws;
import cardproof.sim.circuit.Occasion;
import java.util.BitSet;
import java.util.List;

/** A card on the simulated bench, joined to the pins of a fixture that is simulated elsewhere. */
public final class PinnedCard implements PinSide {
  private static final int UNIT = 1;

  private final Circuit circuit;
  private final Channels channels;
  private final BitSet driven = new BitSet();

  private PinnedCard(Circuit circuit, Channels channels) {
    this.circuit = circuit;
    this.channels = channels;
    circuit.onChange(line -> {}); // all levels are looked at whenever time has passed
  }

  /** As the simulated bench would build it from the same seed. */
  public static PinnedCard wired(
      Card card, List<Fault> faults, int[] lineOfDrive, int[] lineOfWatch, long seed, String unit) {
    long key = Draws.key(Draws.key(seed, UNIT), unit);
    return new PinnedCard(
        WiredCircuit.of(card, faults, lineOfWatch, 0, Occasion.first(key)),
        Channels.of(lineOfDrive, lineOfWatch, card.lines().size()));
  }

  @Override
  public void drive(long nowNs, BitSet drives) {
    circuit.advance(nowNs);
    channels.linesOf(drives, driven);
    circuit.drive(nowNs, driven);
  }

  @Override
  public void advance(long nowNs) {
    circuit.advance(nowNs);
  }

  @Override
  public long nextNs() {
    long nextNs = circuit.nextChangeNs();
    return nextNs == EventQueue.NEVER ? Long.MAX_VALUE : nextNs;
  }

  @Override
  public BitSet watches() {
    BitSet levels = new BitSet();
    for (int watch = 0; watch < channels.watches(); watch++) {
      int line = channels.lineOfWatch()[watch];
      if (line != Channels.NOTHING && circuit.level(line)) {
        levels.set(watch);
      }
    }
    return levels;
  }

  public boolean supplyTripped() {
    return circuit.supplyTripped();
  }
}
