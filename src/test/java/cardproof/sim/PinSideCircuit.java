package cardproof.sim;

import java.util.BitSet;
import java.util.Optional;
import java.util.function.IntConsumer;

/** Whatever sits at the pins of a chip, as a card behind the simulated fixture. */
public final class PinSideCircuit implements Circuit {
  private final PinSide card;
  private final int watches;
  private final int drives;
  private BitSet levels;
  private IntConsumer lineChanged = line -> {};

  private long tripNs = EventQueue.NEVER;
  private long nowNs;

  private PinSideCircuit(PinSide card, int drives, int watches) {
    this.card = card;
    this.drives = drives;
    this.watches = watches;
    this.levels = card.watches();
  }

  public static PinSideCircuit of(PinSide card, int drives, int watches) {
    return new PinSideCircuit(card, drives, watches);
  }

  public SimulatedBench bench(SimSettings settings) {
    int[] lineOfDrive = new int[drives];
    int[] lineOfWatch = new int[watches];
    for (int watch = 0; watch < watches; watch++) {
      lineOfWatch[watch] = watch;
    }
    for (int drive = 0; drive < drives; drive++) {
      lineOfDrive[drive] = watches + drive;
    }
    Channels channels = Channels.of(lineOfDrive, lineOfWatch, drives + watches);
    return new SimulatedBench(new Rig(this, channels, settings), "scripted");
  }

  /** From then on, until the supply has been switched off, as if its own limit had acted. */
  public void tripSupply(long atNs) {
    tripNs = atNs;
  }

  /** What is at the pins has a supply of its own, so this one feeds nothing. */
  @Override
  public void power(long atNs, boolean on) {
    if (!on && nowNs >= tripNs) {
      tripNs = EventQueue.NEVER;
    }
  }

  @Override
  public Optional<SupplyMeter> meter() {
    return Optional.of(new NoLoad());
  }

  private record NoLoad() implements SupplyMeter {
    @Override
    public long millivolts() {
      return 12_000;
    }

    @Override
    public long microamps() {
      return 0;
    }

    @Override
    public void restart() {}

    @Override
    public long lowestMillivolts() {
      return millivolts();
    }

    @Override
    public long highestMicroamps() {
      return microamps();
    }
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
    long cardNs = card.nextNs() == Long.MAX_VALUE ? EventQueue.NEVER : card.nextNs();
    return tripNs > nowNs ? Math.min(cardNs, tripNs) : cardNs;
  }

  @Override
  public void advance(long toNs) {
    while (card.nextNs() <= toNs) {
      card.advance(card.nextNs());
      tell();
    }
    card.advance(toNs);
    nowNs = toNs;
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
    return nowNs >= tripNs;
  }
}
