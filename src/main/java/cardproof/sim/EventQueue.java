package cardproof.sim;

import cardproof.sim.circuit.TimedHeap;
import java.util.ArrayList;
import java.util.List;

/**
 * Virtual time: a clock in nanoseconds and what is to happen on it, in order of time and, at one
 * instant, in the order in which it was asked for. The same calls give the same order always. Not
 * thread safe.
 */
final class EventQueue {
  static final long NEVER = TimedHeap.NEVER;

  private final TimedHeap heap = new TimedHeap(0);
  private final List<Runnable> actions = new ArrayList<>();
  private long nowNs;
  private long asked;

  /** Something that may be asked for again and again, once at a time. */
  final class Timer {
    private final int item;

    private Timer(int item) {
      this.item = item;
    }

    /** Asks for it at this time, or now where that has passed; forgets an earlier asking. */
    void at(long dueNs) {
      heap.put(item, Math.max(dueNs, nowNs), asked++);
    }

    void cancel() {
      heap.remove(item);
    }

    /** When it is due; {@link #NEVER} when it was not asked for. */
    long dueNs() {
      return heap.timeOf(item);
    }
  }

  Timer timer(Runnable action) {
    actions.add(action);
    return new Timer(heap.addItem());
  }

  long nowNs() {
    return nowNs;
  }

  /** When the next event is due, {@link #NEVER} when nothing was asked for. */
  long nextDueNs() {
    return heap.firstTime();
  }

  /** Lets time pass up to the next event and runs that one alone; there must be one. */
  void runNext() {
    int item = heap.first();
    nowNs = heap.firstTime();
    heap.remove(item);
    actions.get(item).run();
  }

  /** Runs all that is due up to this time, this time included, and stands there. */
  void runUntil(long untilNs) {
    while (heap.firstTime() <= untilNs && !heap.isEmpty()) {
      runNext();
    }
    nowNs = Math.max(nowNs, untilNs);
  }
}
