package cardproof.sim;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.function.IntConsumer;

/** A card whose lines do what a test wrote down, whatever is driven. */
public final class ScriptedCircuit implements Circuit {
  private record Flip(long atNs, int line) {}

  private final List<Flip> flips = new ArrayList<>();
  private final BitSet levels = new BitSet();
  private IntConsumer lineChanged = line -> {};
  private long tripNs = EventQueue.NEVER;
  private long nowNs;

  /** The line is at the other level from each of these times on. */
  public ScriptedCircuit flip(int line, double... atMs) {
    for (double ms : atMs) {
      flips.add(new Flip(Math.round(ms * 1e6), line));
    }
    flips.sort(Comparator.comparingLong(Flip::atNs));
    return this;
  }

  public ScriptedCircuit flipEvery(int line, double everyMs, int times) {
    for (int i = 1; i <= times; i++) {
      flip(line, i * everyMs);
    }
    return this;
  }

  public ScriptedCircuit tripSupply(double atMs) {
    tripNs = Math.round(atMs * 1e6);
    return this;
  }

  /** A bench with so many drives and watches, the watches being lines 0 and up. */
  public SimulatedBench bench(int drives, int watches) {
    return bench(drives, watches, SimSettings.of(1, "01"));
  }

  public SimulatedBench bench(int drives, int watches, SimSettings settings) {
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
    advance(atNs);
  }

  @Override
  public long nextChangeNs() {
    long flipNs = flips.isEmpty() ? EventQueue.NEVER : flips.get(0).atNs();
    return tripNs > nowNs ? Math.min(flipNs, tripNs) : flipNs;
  }

  @Override
  public void advance(long toNs) {
    if (toNs < nowNs) {
      throw new AssertionError("time went back from " + nowNs + " to " + toNs);
    }
    nowNs = toNs;
    while (!flips.isEmpty() && flips.get(0).atNs() <= toNs) {
      int line = flips.remove(0).line();
      levels.flip(line);
      lineChanged.accept(line);
    }
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
