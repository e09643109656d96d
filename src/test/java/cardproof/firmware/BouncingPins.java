package cardproof.firmware;

import cardproof.sim.PinSide;
import java.util.BitSet;
import java.util.Comparator;
import java.util.PriorityQueue;
import java.util.SplittableRandom;

/**
 * A watch follows its drive, after a while drawn anew each time, and bounces or not before it
 * rests. Every length is drawn from a seed.
 */
final class BouncingPins implements PinSide {
  private static final long NS_PER_US = 1_000;

  private record Flip(long atNs, int watch, boolean level) {}

  private final PriorityQueue<Flip> flips =
      new PriorityQueue<>(Comparator.comparingLong(Flip::atNs));
  private final SplittableRandom random;
  private final Lines lines;
  private final int mostBounces;
  private final BitSet driven = new BitSet();
  private final BitSet levels = new BitSet();

  /**
   * @param mostBounces opens and closes of a contact after it has made, each 20 to 120 us
   */
  BouncingPins(Lines lines, int mostBounces, long seed) {
    this.lines = lines;
    this.mostBounces = mostBounces;
    this.random = new SplittableRandom(seed);
  }

  @Override
  public void drive(long nowNs, BitSet drives) {
    advance(nowNs);
    BitSet changed = (BitSet) drives.clone();
    changed.xor(driven);
    driven.clear();
    driven.or(drives);
    for (int drive = 0; drive < lines.count(); drive++) {
      if (changed.get(drive)) {
        follow(nowNs, lines.watchOfDrive()[drive], drives.get(drive));
      }
    }
  }

  private void follow(long nowNs, int watch, boolean level) {
    long atNs = nowNs + random.nextLong(300, 900) * NS_PER_US + random.nextLong(NS_PER_US);
    flips.add(new Flip(atNs, watch, level));
    for (int bounces = random.nextInt(mostBounces + 1); bounces > 0; bounces--) {
      atNs += pulseNs();
      flips.add(new Flip(atNs, watch, !level));
      atNs += pulseNs();
      flips.add(new Flip(atNs, watch, level));
    }
  }

  private long pulseNs() {
    return random.nextLong(20 * NS_PER_US, 120 * NS_PER_US + 1);
  }

  @Override
  public void advance(long nowNs) {
    while (nextNs() <= nowNs) {
      Flip flip = flips.remove();
      levels.set(flip.watch, flip.level);
    }
  }

  @Override
  public long nextNs() {
    return flips.isEmpty() ? Long.MAX_VALUE : flips.peek().atNs;
  }

  @Override
  public BitSet watches() {
    return (BitSet) levels.clone();
  }
}
