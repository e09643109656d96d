package cardproof.sim;

import cardproof.sim.circuit.TimedHeap;
import java.util.BitSet;

/**
 * One output contact for each line of a card: where it stands, where it is going, and when it makes
 * or breaks on the way. Not thread safe.
 */
final class Contacts {
  /** Who is told of each make and break, at its own time. */
  interface Listener {
    void changed(long atNs, int line);
  }

  private static final int MOST = RelayTimes.MOST_CHANGES;

  private final RelayTimes times;
  private final BitSet closed = new BitSet();
  private final BitSet goal = new BitSet();
  private final TimedHeap pending;
  private final long[] changesNs;
  private final int[] at;
  private final int[] count;
  private final long[] operations;

  Contacts(int lines, RelayTimes times) {
    this.times = times;
    this.pending = new TimedHeap(lines);
    this.changesNs = new long[lines * MOST];
    this.at = new int[lines];
    this.count = new int[lines];
    this.operations = new long[lines];
  }

  boolean isClosed(int line) {
    return closed.get(line);
  }

  /** Puts a contact where it is to be, at rest, at once: as found when power has long been on. */
  void place(int line, boolean level) {
    closed.set(line, level);
    goal.set(line, level);
    pending.remove(line);
  }

  /**
   * Sends a contact somewhere. One on its way there stays on its way; one that has not left, or
   * that bounces back to where it is now wanted, stays; else a new operation starts.
   *
   * @param racing whether its relays have been on their way already, in a loop that never rests
   */
  void send(int line, boolean level, long nowNs, boolean racing) {
    if (goal.get(line) == level) {
      return;
    }
    goal.set(line, level);
    if (closed.get(line) == level) {
      pending.remove(line);
      return;
    }
    long number = operations[line]++;
    long firstNs =
        racing
            ? times.firstInRaceNs(line, number, nowNs)
            : times.firstNs(line, number, level, nowNs);
    at[line] = 0;
    count[line] = times.changes(line, number, level, firstNs, changesNs, line * MOST);
    pending.put(line, firstNs, line);
  }

  long nextChangeNs() {
    return pending.firstTime();
  }

  /** Makes and breaks all that is due up to now, and tells of each line at each change. */
  void advance(long nowNs, Listener listener) {
    while (pending.firstTime() <= nowNs && !pending.isEmpty()) {
      int line = pending.first();
      long atNs = pending.firstTime();
      closed.flip(line);
      int next = ++at[line];
      if (next < count[line]) {
        pending.put(line, changesNs[line * MOST + next], line);
      } else {
        pending.remove(line);
      }
      listener.changed(atNs, line);
    }
  }
}
