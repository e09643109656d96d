package cardproof.sim.circuit;

import java.util.Arrays;

/**
 * Numbered items, each at most once, in order of a time and then of a second key. A binary heap
 * that knows where every item is, so that an item can be moved or taken out. Not thread safe.
 */
public final class TimedHeap {
  /** Later than anything. */
  public static final long NEVER = Long.MAX_VALUE;

  private static final int ABSENT = -1;

  private int[] heap;
  private int[] place;
  private long[] time;
  private long[] order;
  private int size;

  public TimedHeap(int items) {
    heap = new int[items];
    place = new int[items];
    time = new long[items];
    order = new long[items];
    Arrays.fill(place, ABSENT);
  }

  /** Makes room for one item more; its number. */
  public int addItem() {
    int item = place.length;
    heap = Arrays.copyOf(heap, item + 1);
    place = Arrays.copyOf(place, item + 1);
    time = Arrays.copyOf(time, item + 1);
    order = Arrays.copyOf(order, item + 1);
    place[item] = ABSENT;
    return item;
  }

  public boolean isEmpty() {
    return size == 0;
  }

  public boolean contains(int item) {
    return place[item] != ABSENT;
  }

  /** The item due first; there must be one. */
  public int first() {
    return heap[0];
  }

  /** When the first item is due; {@link #NEVER} when there is none. */
  public long firstTime() {
    return size == 0 ? NEVER : time[heap[0]];
  }

  public long timeOf(int item) {
    return contains(item) ? time[item] : NEVER;
  }

  /** Puts an item in, or moves it. */
  public void put(int item, long atTime, long atOrder) {
    time[item] = atTime;
    order[item] = atOrder;
    if (place[item] == ABSENT) {
      place[item] = size;
      heap[size++] = item;
    }
    down(place[item]);
    up(place[item]);
  }

  public void remove(int item) {
    int hole = place[item];
    if (hole == ABSENT) {
      return;
    }
    place[item] = ABSENT;
    int last = heap[--size];
    if (last != item) {
      settle(last, hole);
      down(hole);
      up(place[last]);
    }
  }

  private boolean before(int a, int b) {
    return time[a] < time[b] || time[a] == time[b] && order[a] < order[b];
  }

  private void settle(int item, int at) {
    heap[at] = item;
    place[item] = at;
  }

  private void up(int from) {
    int at = from;
    int item = heap[at];
    while (at > 0 && before(item, heap[(at - 1) / 2])) {
      settle(heap[(at - 1) / 2], at);
      at = (at - 1) / 2;
    }
    settle(item, at);
  }

  private void down(int from) {
    int at = from;
    int item = heap[at];
    while (2 * at + 1 < size) {
      int child = 2 * at + 1;
      if (child + 1 < size && before(heap[child + 1], heap[child])) {
        child++;
      }
      if (!before(heap[child], item)) {
        break;
      }
      settle(heap[child], at);
      at = child;
    }
    settle(item, at);
  }
}
