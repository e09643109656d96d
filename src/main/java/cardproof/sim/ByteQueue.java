package cardproof.sim;

/** Bytes in the order in which they came. Grows as needed; not thread safe. */
final class ByteQueue {
  private static final int FIRST_ROOM = 1024;

  private byte[] bytes = new byte[FIRST_ROOM];
  private int head;
  private int tail;

  boolean isEmpty() {
    return head == tail;
  }

  void add(byte[] more) {
    if (tail + more.length > bytes.length) {
      int used = tail - head;
      byte[] room =
          2 * (used + more.length) > bytes.length
              ? new byte[2 * (bytes.length + more.length)]
              : bytes;
      System.arraycopy(bytes, head, room, 0, used);
      bytes = room;
      head = 0;
      tail = used;
    }
    System.arraycopy(more, 0, bytes, tail, more.length);
    tail += more.length;
  }

  /** Moves as many as there are and fit; how many. */
  int take(byte[] into) {
    int count = Math.min(into.length, tail - head);
    System.arraycopy(bytes, head, into, 0, count);
    head += count;
    if (head == tail) {
      head = 0;
      tail = 0;
    }
    return count;
  }
}
