package cardproof.firmware;

import cardproof.sim.PinSide;
import java.util.BitSet;

/** Watch 0 changes again and again, evenly, while drive 0 is on. */
final class Oscillating implements PinSide {
  private final long halfNs;
  private final BitSet levels = new BitSet();
  private long nextNs = Long.MAX_VALUE;

  Oscillating(long halfNs) {
    this.halfNs = halfNs;
  }

  @Override
  public void drive(long nowNs, BitSet drives) {
    advance(nowNs);
    boolean runs = nextNs != Long.MAX_VALUE;
    if (drives.get(0) != runs) {
      nextNs = drives.get(0) ? nowNs + halfNs : Long.MAX_VALUE;
    }
  }

  @Override
  public void advance(long nowNs) {
    while (nextNs <= nowNs) {
      levels.flip(0);
      nextNs += halfNs;
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
