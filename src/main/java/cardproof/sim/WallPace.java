package cardproof.sim;

/**
 * Holds virtual time back to a wall clock. What it has fallen behind it catches up, so that small
 * delays do not add up; but after a stop longer than {@value #MOST_BEHIND_NS} ns, as when the whole
 * program was stopped, it goes on from there instead of rushing relays through what was missed.
 */
final class WallPace implements Pace {
  private static final long MOST_BEHIND_NS = 500_000_000;

  private final WallClock clock;
  private long originNs;

  /**
   * @param virtualNs the virtual clock now
   */
  WallPace(WallClock clock, long virtualNs) {
    this.clock = clock;
    this.originNs = clock.nanoTime() - virtualNs;
  }

  @Override
  public void await(long virtualNs) {
    long behindNs = clock.nanoTime() - (originNs + virtualNs);
    if (behindNs > MOST_BEHIND_NS) {
      originNs += behindNs;
    } else if (behindNs < 0) {
      clock.waitUntil(originNs + virtualNs);
    }
  }
}
