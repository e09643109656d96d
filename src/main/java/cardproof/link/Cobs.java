package cardproof.link;

/**
 * Consistent overhead byte stuffing: takes every zero out of a block of bytes, so that zero can end
 * it. Method: S. Cheshire, M. Baker, "Consistent Overhead Byte Stuffing", IEEE/ACM Transactions on
 * Networking 7(2), 1999.
 *
 * <pre>
 *   +------+--------------------+------+--------------------+-- ...
 *   | code | code-1 bytes, no 0 | code | code-1 bytes, no 0 |
 *   +------+--------------------+------+--------------------+-- ...
 * </pre>
 *
 * <p>Each group stands for its bytes and a zero after them, except that no zero follows a group of
 * code 255 or the last group.
 */
final class Cobs {
  private static final int FULL = 0xFF;

  private Cobs() {}

  /** The most bytes that {@code length} bytes can grow to, the ending zero left out. */
  static int longest(int length) {
    return length + 1 + length / (FULL - 1);
  }

  /**
   * Writes the encoding of {@code from[0..length)} to {@code into[at..]}, without the ending zero.
   *
   * @return the offset after the last byte written
   */
  static int encode(byte[] from, int length, byte[] into, int at) {
    int codeAt = at;
    int to = at + 1;
    for (int i = 0; i < length; i++) {
      if (from[i] != 0) {
        into[to++] = from[i];
        if (to - codeAt < FULL || i + 1 == length) {
          continue;
        }
      }
      into[codeAt] = (byte) (to - codeAt);
      codeAt = to++;
    }
    into[codeAt] = (byte) (to - codeAt);
    return to;
  }

  /**
   * Decodes {@code bytes[0..length)} in place; the result is never longer than what it came from.
   *
   * @return the length of the result, or -1 when these bytes are no encoding of anything
   */
  static int decodeInPlace(byte[] bytes, int length) {
    int from = 0;
    int to = 0;
    while (from < length) {
      int code = bytes[from++] & 0xFF;
      int end = from + code - 1;
      if (code == 0 || end > length) {
        return -1;
      }
      while (from < end) {
        byte next = bytes[from++];
        if (next == 0) {
          return -1;
        }
        bytes[to++] = next;
      }
      if (code != FULL && from < length) {
        bytes[to++] = 0;
      }
    }
    return length == 0 ? -1 : to;
  }
}
