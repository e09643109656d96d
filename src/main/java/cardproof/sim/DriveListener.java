package cardproof.sim;

import java.util.BitSet;

/** Who is told each time the simulated fixture switches its drives. */
@FunctionalInterface
public interface DriveListener {
  /**
   * @param nowNs on the clock of the bench
   * @param on drives that are on from now on; a copy
   */
  void drivesSwitched(long nowNs, BitSet on);
}
