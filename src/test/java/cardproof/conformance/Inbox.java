package cardproof.conformance;

import java.io.ByteArrayOutputStream;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.List;

/** Frames as they come in from the line. A damaged one is a failure: no peer's line damages any. */
final class Inbox {
  private final ByteArrayOutputStream part = new ByteArrayOutputStream();
  private final Deque<Arrived> waiting = new ArrayDeque<>();
  private final List<Arrived> all = new ArrayList<>();

  void take(byte[] bytes, long atNs) {
    for (byte b : bytes) {
      if (b != 0) {
        part.write(b);
      } else if (part.size() > 0) {
        byte[] line = part.toByteArray();
        part.reset();
        Frame frame =
            Frame.parse(line)
                .orElseThrow(() -> new AssertionError("damaged: " + Arrays.toString(line)));
        waiting.add(new Arrived(atNs, frame));
        all.add(new Arrived(atNs, frame));
      }
    }
  }

  Deque<Arrived> waiting() {
    return waiting;
  }

  List<Arrived> all() {
    return all;
  }
}
