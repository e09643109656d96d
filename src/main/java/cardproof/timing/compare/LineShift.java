package cardproof.timing.compare;

import cardproof.log.LineName;
import cardproof.timing.stats.PairedShift;

/**
 * By how much one line got slower in one direction, microseconds; below 0 it got faster.
 *
 * @param line as the later runs name it
 * @param endsHigh the direction
 * @param shift over the transitions that both sides have, for these very runs
 * @param lowUs what was done made it slower by no less: the interval of {@code shift}, and what
 *     runs differ by on their own. With all lines and directions together it is right in 95 % of
 *     comparisons. Infinite where that is not known.
 * @param highUs and by no more
 * @param tenthUs in a tenth of the transitions it is as much or more (where it is faster: less); a
 *     relay that is slow shifts only the transitions that wait for it
 * @param adjustedP by Holm over all lines and directions
 * @param marginUs what the whole interval has to lie beyond; infinite where it is not known
 * @param unsettledBefore transitions left out because the line did not settle in half of the runs
 *     before
 * @param unsettledAfter the same after
 * @param change what it comes to
 */
public record LineShift(
    LineName line,
    boolean endsHigh,
    PairedShift shift,
    double lowUs,
    double highUs,
    double tenthUs,
    double adjustedP,
    double marginUs,
    int unsettledBefore,
    int unsettledAfter,
    Change change) {

  /** What a shift comes to. */
  public enum Change {
    /** Slower, by more than the margin. */
    SLOWER,
    /** Faster, by more than the margin. */
    FASTER,
    /** No change beyond the margin was seen. */
    NONE,
    /** Too few transitions in common to say anything. */
    TOO_FEW,
    /** How much runs differ is not known, so that a shift may mean nothing. */
    NO_MARGIN
  }

  /** {@code rising} or {@code falling}. */
  public String direction() {
    return endsHigh ? "rising" : "falling";
  }

  /** The largest change that the interval leaves open, either way. */
  public double mostUs() {
    return Math.max(Math.abs(lowUs), Math.abs(highUs));
  }
}
