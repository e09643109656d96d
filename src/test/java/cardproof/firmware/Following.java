package cardproof.firmware;

import cardproof.sim.PinSide;
import java.util.BitSet;

/**
 * Watch 0 follows drive 0 after a fixed time; a second change within it takes the first's place.
 */
final class Following implements PinSide {
  private final long afterNs;
  private final BitSet levels = new BitSet();
  private boolean next;
  private long nextNs = Long.MAX_VALUE;

  Following(long afterNs) {
    this.afterNs = afterNs;
  }

  @Override
  public void drive(long nowNs, BitSet drives) {
    advance(nowNs);
    next = drives.get(0);
    nextNs = next == levels.get(0) ? Long.MAX_VALUE : nowNs + afterNs;
  }

  @Override
  public void advance(long nowNs) {
    if (nextNs <= nowNs) {
      levels.set(0, next);
      nextNs = Long.MAX_VALUE;
    }
  }

  @Override
  public long nextNs() {
    return nextNs;
  }

  @Override
  public BitSet watches() {
    return (BitSet) levels.clone();
  }
}
