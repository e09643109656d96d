package cardproof.sim;

import java.util.BitSet;
import java.util.function.IntConsumer;

/** Whatever sits at the pins of a chip, as a card behind the simulated fixture. */
public final class PinSideCircuit implements Circuit {
  private final PinSide card;
  private final int watches;
  private final int drives;
  private BitSet levels;
  private IntConsumer lineChanged = line -> {};

  private PinSideCircuit(PinSide card, int drives, int watches) {
    this.card = card;
    this.drives = drives;
    this.watches = watches;
    this.levels = card.watches();
  }

  public static SimulatedBench bench(PinSide card, int drives, int watches, SimSettings settings) {
    int[] lineOfDrive = new int[drives];
    int[] lineOfWatch = new int[watches];
    for (int watch = 0; watch < watches; watch++) {
      lineOfWatch[watch] = watch;
    }
    for (int drive = 0; drive < drives; drive++) {
      lineOfDrive[drive] = watches + drive;
    }
    Channels channels = Channels.of(lineOfDrive, lineOfWatch, drives + watches);
    Circuit circuit = new PinSideCircuit(card, drives, watches);
    return new SimulatedBench(new Rig(circuit, channels, settings), "scripted");
  }

  @Override
  public void onChange(IntConsumer listener) {
    lineChanged = listener;
  }

  @Override
  public void tap(WaveListener who) {
    throw new UnsupportedOperationException("no test asks for it");
  }

  @Override
  public boolean fromWiring() {
    return false;
  }

  @Override
  public void drive(long atNs, BitSet driven) {
    card.drive(atNs, driven.get(watches, watches + drives));
    tell();
  }

  @Override
  public long nextChangeNs() {
    return card.nextNs() == Long.MAX_VALUE ? EventQueue.NEVER : card.nextNs();
  }

  @Override
  public void advance(long toNs) {
    while (card.nextNs() <= toNs) {
      card.advance(card.nextNs());
      tell();
    }
    card.advance(toNs);
  }

  private void tell() {
    BitSet now = card.watches();
    BitSet changed = (BitSet) now.clone();
    changed.xor(levels);
    levels = now;
    changed.stream().filter(line -> line < watches).forEach(lineChanged::accept);
  }

  @Override
  public boolean level(int line) {
    return levels.get(line);
  }

  @Override
  public boolean supplyTripped() {
    return false;
  }
}
