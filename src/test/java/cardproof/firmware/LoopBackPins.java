package cardproof.firmware;

import cardproof.fixture.Plug;
import cardproof.sim.PinSide;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;
import java.util.Set;

/**
 * Drivers, a loop-back plug and inputs at a chip's pins: each drive pin reaches the watches that
 * the plug joins it to, after the times that the wiring notes reckon with. What is wrong is put in
 * by name. The plug may be changed from another thread.
 */
public final class LoopBackPins implements PinSide {
  /** A source-driver array and a divider; letting go takes as long as with single transistors. */
  public static final long ON_NS = 8_000;

  public static final long OFF_NS = 32_000;

  /** How soon a plug that was changed is noticed, where a drive is stuck. */
  private static final long LOOK_NS = 5_000_000;

  private record Flip(long atNs, Plug.Join join, boolean level) {}

  private final PriorityQueue<Flip> flips =
      new PriorityQueue<>(Comparator.comparingLong(Flip::atNs));
  private final Set<Plug.Join> high = new HashSet<>();
  private final Map<Integer, Integer> outputOf = new HashMap<>();
  private final Map<Integer, Integer> inputOf = new HashMap<>();
  private final Map<Integer, Long> slowDrives = new HashMap<>();
  private final Map<Integer, Long> slowWatches = new HashMap<>();
  private final Set<Integer> cutAtWatch = new HashSet<>();
  private final BitSet deadDrives = new BitSet();
  private final BitSet stuckDrives = new BitSet();
  private final BitSet deadWatches = new BitSet();
  private final BitSet stuckWatches = new BitSet();
  private final BitSet driven = new BitSet();
  private final BitSet everDriven = new BitSet();
  private Plug plug;
  private long lookedNs;

  public LoopBackPins(Plug plug) {
    this.plug = plug;
  }

  /** Another plug is on from now on; only while nothing is driven. */
  public synchronized void put(Plug other) {
    if (!driven.isEmpty()) {
      throw new AssertionError("a plug was changed with drives on: " + driven);
    }
    plug = other;
    high.clear();
    flips.clear();
  }

  /** The wire to this watch is open, in whatever plug. */
  public LoopBackPins cut(int watch) {
    cutAtWatch.add(watch);
    return this;
  }

  public LoopBackPins exchangedDrives(int one, int other) {
    outputOf.put(one, other);
    outputOf.put(other, one);
    return this;
  }

  public LoopBackPins exchangedWatches(int one, int other) {
    inputOf.put(one, other);
    inputOf.put(other, one);
    return this;
  }

  public LoopBackPins deadDrive(int drive) {
    deadDrives.set(drive);
    return this;
  }

  public LoopBackPins stuckDrive(int drive) {
    stuckDrives.set(drive);
    return this;
  }

  public LoopBackPins deadWatch(int watch) {
    deadWatches.set(watch);
    return this;
  }

  public LoopBackPins stuckWatch(int watch) {
    stuckWatches.set(watch);
    return this;
  }

  public LoopBackPins slowDrive(int drive, long byUs) {
    slowDrives.put(drive, byUs * 1000);
    return this;
  }

  public LoopBackPins slowWatch(int watch, long byUs) {
    slowWatches.put(watch, byUs * 1000);
    return this;
  }

  /** Drives that were on at some time. */
  public synchronized BitSet everDriven() {
    return (BitSet) everDriven.clone();
  }

  public synchronized boolean idle() {
    return driven.isEmpty();
  }

  @Override
  public synchronized void drive(long nowNs, BitSet drives) {
    advance(nowNs);
    BitSet changed = (BitSet) drives.clone();
    changed.xor(driven);
    driven.clear();
    driven.or(drives);
    everDriven.or(drives);
    for (Plug.Join join : joins()) {
      int pin = outputOf.getOrDefault(join.drive(), join.drive());
      if (changed.get(pin) && !deadDrives.get(join.drive())) {
        boolean level = drives.get(pin);
        long afterNs =
            (level ? ON_NS : OFF_NS)
                + slowDrives.getOrDefault(join.drive(), 0L)
                + slowWatches.getOrDefault(join.watch(), 0L);
        flips.add(new Flip(nowNs + afterNs, join, level));
      }
    }
  }

  private List<Plug.Join> joins() {
    List<Plug.Join> joins = new ArrayList<>(plug.joins());
    joins.removeIf(join -> cutAtWatch.contains(join.watch()));
    return joins;
  }

  @Override
  public synchronized void advance(long nowNs) {
    lookedNs = nowNs;
    while (!flips.isEmpty() && flips.peek().atNs <= nowNs) {
      Flip flip = flips.remove();
      if (flip.level) {
        high.add(flip.join);
      } else {
        high.remove(flip.join);
      }
    }
  }

  @Override
  public synchronized long nextNs() {
    long lookNs = lookedNs + LOOK_NS;
    return flips.isEmpty() ? lookNs : Math.min(lookNs, flips.peek().atNs);
  }

  @Override
  public synchronized BitSet watches() {
    BitSet lines = new BitSet();
    high.forEach(join -> lines.set(join.watch()));
    for (Plug.Join join : joins()) {
      if (stuckDrives.get(join.drive())) {
        lines.set(join.watch());
      }
    }
    BitSet seen = new BitSet();
    lines.stream().forEach(line -> seen.set(inputOf.getOrDefault(line, line)));
    seen.andNot(deadWatches);
    seen.or(stuckWatches);
    return seen;
  }
}
