package cardproof.sim;

import cardproof.card.Card;
import cardproof.text.RefusedException;
import java.util.Arrays;

/**
 * The simulated fixture with its card, for a loop that has a clock of its own: a process behind a
 * pseudo-terminal, say. Time is whatever the caller says it is, in nanoseconds from an arbitrary
 * start, and what was due in between happens at the time it was due. Not thread safe.
 *
 * <p>Such a loop waits for bytes until {@link #nextDueNs}, hands on what came, and sends what
 * {@link #produce} gives.
 */
public final class PacedFixture {
  private final Rig rig;
  private final long originNs;

  /**
   * @param startNs the caller's clock now; the bench was at rest before
   * @throws RefusedException when the card has no behaviour that could be simulated
   */
  public PacedFixture(
      Card card, int[] lineOfDrive, int[] lineOfWatch, SimSettings settings, long startNs) {
    this.rig = new Rig(card, lineOfDrive, lineOfWatch, settings);
    this.originNs = startNs;
  }

  /** The first {@code length} bytes came from the host at this time. */
  public void receive(byte[] bytes, int length, long nowNs) {
    rig.queue.runUntil(nowNs - originNs);
    rig.fromHost(Arrays.copyOf(bytes, length));
  }

  /**
   * When {@link #produce} is to be called next on the caller's clock: in the past when there are
   * bytes already, {@link Long#MAX_VALUE} when nothing is due.
   */
  public long nextDueNs() {
    if (!rig.toHost.isEmpty()) {
      return rig.queue.nowNs() + originNs;
    }
    long dueNs = rig.queue.nextDueNs();
    return dueNs == EventQueue.NEVER ? Long.MAX_VALUE : dueNs + originNs;
  }

  /**
   * Lets all happen that is due up to now.
   *
   * @param into gets bytes that have reached the host by then; what does not fit stays
   * @return how many
   */
  public int produce(byte[] into, long nowNs) {
    rig.queue.runUntil(nowNs - originNs);
    return rig.toHost.take(into);
  }

  /** From now on tells of all that goes over the line; times from the start. */
  public void trace(FrameTrace who) {
    rig.trace(who);
  }

  /** From now on tells of each time the drives are switched; times from the start. */
  public void watchDrives(DriveListener who) {
    rig.fixture.drives().listen(who);
  }

  /** Resets the fixture, now, as its reset button would. */
  public void resetFixture(ResetCause why, long nowNs) {
    rig.queue.runUntil(nowNs - originNs);
    rig.fixture.reset(why);
  }
}
