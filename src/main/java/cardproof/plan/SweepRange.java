package cardproof.plan;

/**
 * The times that a sweep may try, in rising order: the last one is {@code toUs}, each a resolution
 * after the one before, and none is before {@code fromUs}.
 */
public record SweepRange(long fromUs, long toUs, long resolutionUs) {
  public SweepRange {
    if (fromUs >= toUs || resolutionUs <= 0) {
      throw new IllegalArgumentException(fromUs + " to " + toUs + " by " + resolutionUs);
    }
  }

  public int count() {
    return Math.toIntExact((toUs - fromUs) / resolutionUs + 1);
  }

  public long atUs(int index) {
    return toUs - (count() - 1 - index) * resolutionUs;
  }

  /** The first one that is not before a time. */
  public int firstFrom(long us) {
    int steps = Math.toIntExact(Math.max(0, toUs - us) / resolutionUs);
    return Math.max(0, count() - 1 - steps);
  }
}
