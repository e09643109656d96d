package cardproof.link;

import java.util.Optional;

/**
 * The numbers of one session as the host knows them, and a slot for each step that is not
 * acknowledged.
 *
 * <pre>
 *   acked &lt;= delivered &lt;= next;  delivered and finished are each &lt;= taken + K
 *   0 ...... acked ...... delivered ...... finished ...... taken ...... next ...... acked + K
 *   slot free | result given out | result due      | queued     | on its way  | free
 * </pre>
 *
 * <p>{@code taken} and {@code finished} follow the fixture's {@code next} and {@code finished} and
 * never go back, so a frame that comes late can say nothing false.
 */
final class StepWindow {
  private final Slot[] ring;
  private int acked;
  private int delivered;
  private int finished;
  private int taken;
  private int next;
  private long progressNs;

  StepWindow(int slots, int first, long nowNs) {
    this.ring = new Slot[slots];
    this.acked = first;
    this.delivered = first;
    this.finished = first;
    this.taken = first;
    this.next = first;
    this.progressNs = nowNs;
  }

  /** As if every slot had been used: for steps of which only the results are wanted. */
  void fill() {
    while (hasRoom()) {
      add(new Slot(next, new byte[0], 0));
    }
  }

  boolean hasRoom() {
    return next - acked < ring.length;
  }

  int acked() {
    return acked;
  }

  int delivered() {
    return delivered;
  }

  int finished() {
    return finished;
  }

  int taken() {
    return taken;
  }

  int next() {
    return next;
  }

  /** When the first step that is not finished could start at the earliest. */
  long progressNs() {
    return progressNs;
  }

  /** Steps can go on from now only: armed, or resumed. */
  void restart(long nowNs) {
    progressNs = nowNs;
  }

  Slot slot(int number) {
    return ring[number % ring.length];
  }

  void add(Slot slot) {
    if (!hasRoom() || slot.number != next) {
      throw new IllegalStateException("step " + slot.number + " with " + acked + " to " + next);
    }
    ring[next % ring.length] = slot;
    next++;
  }

  /**
   * Takes the fixture's word for what it has accepted and finished.
   *
   * @return false when it cannot be: it counts steps that were never sent
   */
  boolean observe(int takenThere, int finishedThere, long nowNs) {
    if (isBeyond(takenThere) || isBeyond(finishedThere)) {
      return false;
    }
    taken = Math.max(taken, Math.max(takenThere, finishedThere));
    if (finishedThere > finished) {
      finished = finishedThere;
      progressNs = nowNs;
    }
    return true;
  }

  void take(Result part, long nowNs) {
    if (part.number() >= delivered && !isBeyond(part.number() + 1)) {
      slot(part.number()).take(part, nowNs);
    }
  }

  void take(Edges part) {
    if (part.number() >= delivered && !isBeyond(part.number() + 1)) {
      slot(part.number()).take(part);
    }
  }

  /** Whether the next result in order is there. */
  boolean hasResult() {
    return delivered < next && slot(delivered).arrived().isPresent();
  }

  /** The next result in order, once. */
  Optional<LinkEvent.ResultArrived> deliver() {
    if (!hasResult()) {
      return Optional.empty();
    }
    return slot(delivered++).arrived();
  }

  /**
   * Frees every slot below this step.
   *
   * @throws IllegalArgumentException when a result below it was not handed out
   */
  void acknowledge(int below) {
    if (below > delivered) {
      throw new IllegalArgumentException(
          "acknowledging below " + below + ", but results were handed out below " + delivered);
    }
    acked = Math.max(acked, below);
  }

  private boolean isBeyond(int number) {
    return Integer.compareUnsigned(number, next) > 0;
  }
}
