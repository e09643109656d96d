package cardproof.sim;

import java.util.Arrays;
import java.util.BitSet;
import java.util.Optional;

/**
 * Samples the watched ends of a circuit on a grid of the sampling period, and at instants that are
 * asked for. Works from change to change: a sample at which nothing can have changed is not taken,
 * since it would see nothing.
 *
 * <p>What a drive changes at once is seen by the first sample after it.
 */
final class Sampler {
  /** Who is told of what a sample saw. */
  interface Watcher {
    /** The level of this watch differs from the sample before. */
    void changed(long nowNs, int watch);

    /** All changes of this sample have been told; there was one at least. */
    void sampled(long nowNs);
  }

  private final EventQueue queue;
  private final Circuit circuit;
  private final long periodNs;
  private final int[] lineOfWatch;
  private final int[] watchOfLine;
  private final BitSet levels = new BitSet();
  private final BitSet touched = new BitSet();
  private final EventQueue.Timer timer;
  private final Watcher watcher;
  private long earliestNs;

  Sampler(EventQueue queue, Circuit circuit, Channels channels, long periodNs, Watcher watcher) {
    this.queue = queue;
    this.circuit = circuit;
    this.periodNs = periodNs;
    this.lineOfWatch = channels.lineOfWatch();
    this.watcher = watcher;
    this.timer = queue.timer(this::sample);
    this.watchOfLine = new int[channels.lines()];
    Arrays.fill(watchOfLine, Channels.NOTHING);
    for (int watch = 0; watch < lineOfWatch.length; watch++) {
      if (lineOfWatch[watch] != Channels.NOTHING) {
        watchOfLine[lineOfWatch[watch]] = watch;
        levels.set(watch, circuit.level(lineOfWatch[watch]));
      }
    }
    circuit.onChange(this::touch);
    ask();
  }

  /** Levels at the last sample, by watch. Not to be changed. */
  BitSet levels() {
    return levels;
  }

  /** Takes the sample of the grid that is due now, if it is not taken yet. */
  void catchUp() {
    if (timer.dueNs() <= queue.nowNs()) {
      sample();
    }
  }

  /** Takes a sample now, on the grid or not. */
  void sample() {
    long nowNs = queue.nowNs();
    circuit.advance(nowNs);
    earliestNs = nextOnGrid(nowNs);
    boolean any = false;
    for (int watch = touched.nextSetBit(0); watch >= 0; watch = touched.nextSetBit(watch + 1)) {
      boolean level = circuit.level(lineOfWatch[watch]);
      if (level != levels.get(watch)) {
        levels.set(watch, level);
        watcher.changed(nowNs, watch);
        any = true;
      }
    }
    touched.clear();
    ask();
    if (any || circuit.supplyTripped()) {
      watcher.sampled(nowNs);
    }
  }

  /** Drives these lines from now on. */
  void drive(BitSet lines) {
    long nowNs = queue.nowNs();
    circuit.drive(nowNs, lines);
    earliestNs = nextOnGrid(nowNs);
    ask();
  }

  /** Switches the card's supply. */
  void power(boolean on) {
    long nowNs = queue.nowNs();
    circuit.power(nowNs, on);
    earliestNs = nextOnGrid(nowNs);
    ask();
  }

  Optional<SupplyMeter> meter() {
    return circuit.meter();
  }

  /** Lets the card come up to now, whether a sample is due or not. */
  void bringUp() {
    circuit.advance(queue.nowNs());
  }

  boolean supplyTripped() {
    return circuit.supplyTripped();
  }

  private void touch(int line) {
    int watch = watchOfLine[line];
    if (watch != Channels.NOTHING) {
      touched.set(watch);
    }
  }

  private void ask() {
    long changeNs = touched.isEmpty() ? circuit.nextChangeNs() : queue.nowNs();
    if (changeNs == EventQueue.NEVER) {
      timer.cancel();
    } else {
      timer.at(Math.max(earliestNs, onGrid(changeNs)));
    }
  }

  private long onGrid(long ns) {
    return (ns + periodNs - 1) / periodNs * periodNs;
  }

  private long nextOnGrid(long ns) {
    return (ns / periodNs + 1) * periodNs;
  }
}
