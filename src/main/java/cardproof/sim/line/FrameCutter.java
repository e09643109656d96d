package cardproof.sim.line;

import java.util.Arrays;
import java.util.function.Consumer;

/**
 * Cuts a stream of bytes behind each zero, so that what befalls a frame befalls a frame, in
 * whatever portions its bytes were written. What is longer than any frame goes on as it is.
 */
final class FrameCutter {
  private static final int LONGEST = 1024;

  private final byte[] begun = new byte[LONGEST];
  private int used;

  void cut(byte[] bytes, Consumer<byte[]> frame) {
    if (used == 0 && isOneFrame(bytes)) {
      frame.accept(bytes);
      return;
    }
    for (byte next : bytes) {
      begun[used++] = next;
      if (next == 0 || used == LONGEST) {
        frame.accept(Arrays.copyOf(begun, used));
        used = 0;
      }
    }
  }

  private static boolean isOneFrame(byte[] bytes) {
    for (int i = 0; i < bytes.length; i++) {
      if (bytes[i] == 0) {
        return i == bytes.length - 1;
      }
    }
    return false;
  }
}
