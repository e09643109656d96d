package cardproof.sim;

import java.util.ArrayDeque;
import java.util.function.Consumer;

/** One direction of the line: what goes in comes out after a fixed time, in order. */
final class DelayLine {
  private record Travelling(long dueNs, byte[] bytes) {}

  private final EventQueue queue;
  private final long delayNs;
  private final Consumer<byte[]> out;
  private final EventQueue.Timer timer;
  private final ArrayDeque<Travelling> under = new ArrayDeque<>();

  /**
   * @param delayNs 0 for none: bytes then come out in the call that puts them in
   */
  DelayLine(EventQueue queue, long delayNs, Consumer<byte[]> out) {
    this.queue = queue;
    this.delayNs = delayNs;
    this.out = out;
    this.timer = queue.timer(this::arrive);
  }

  void put(byte[] bytes) {
    if (delayNs == 0) {
      out.accept(bytes);
      return;
    }
    under.add(new Travelling(queue.nowNs() + delayNs, bytes));
    if (under.size() == 1) {
      timer.at(under.peek().dueNs());
    }
  }

  private void arrive() {
    Travelling first = under.remove();
    if (!under.isEmpty()) {
      timer.at(under.peek().dueNs());
    }
    out.accept(first.bytes());
  }
}
