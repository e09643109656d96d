package cardproof.link;

import cardproof.sim.line.Direction;
import cardproof.sim.line.LineFault;
import cardproof.sim.line.NoisyLine;
import java.util.ArrayList;
import java.util.List;

/**
 * One direction of a line at 250,000 baud to a native port, in virtual time, and whatever else is
 * wrong with it, which may change as time goes on.
 */
final class Strand {
  private static final LineFault USUAL = LineFault.parse("link: speed 250000 baud, delay 300 us");

  private final Direction direction;
  private final long seed;
  private NoisyLine line;
  private NoisyLine before;
  private boolean cut;
  private long waiting;
  private long deepest;

  Strand(Direction direction, long seed) {
    this.direction = direction;
    this.seed = seed;
    this.line = line(List.of());
    this.before = line;
  }

  /** What is sent from now on meets these; what is under way already does not. */
  void faults(List<LineFault> faults) {
    before = line;
    line = line(faults);
  }

  /** From now on nothing gets through. */
  void cut() {
    cut = true;
  }

  void write(byte[] bytes, long nowNs) {
    if (!cut) {
      line.send(bytes, nowNs);
      waiting += bytes.length;
      deepest = Math.max(deepest, waiting);
    }
  }

  /** When the next bytes arrive. */
  long nextNs() {
    return Math.min(line.nextNs(), before.nextNs());
  }

  /** Takes bytes that have arrived by now; empty when there are none. */
  byte[] take(long nowNs) {
    byte[] bytes = (before.nextNs() < line.nextNs() ? before : line).take(nowNs);
    waiting -= bytes.length;
    return bytes;
  }

  /** The most bytes that were ever under way, where none are lost or added. */
  long deepest() {
    return deepest;
  }

  private NoisyLine line(List<LineFault> faults) {
    List<LineFault> all = new ArrayList<>(List.of(USUAL));
    all.addAll(faults);
    return NoisyLine.of(direction, 0, all, seed);
  }
}
