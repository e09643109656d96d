package cardproof.sim;

import java.util.BitSet;

/**
 * Whatever is joined to the pins of a fixture that is simulated elsewhere, in nanoseconds of that
 * fixture's own time, which never goes back. Channels are numbered from 0.
 */
public interface PinSide {
  void drive(long nowNs, BitSet drives);

  void advance(long nowNs);

  /**
   * When to look again if nothing is driven anew; {@link Long#MAX_VALUE} if there is no need to.
   */
  long nextNs();

  /** Levels of the watch channels now. */
  BitSet watches();
}
