package cardproof.sim;

import cardproof.sim.line.NoisyLine;
import java.util.function.Consumer;

/** One direction of the line, joined to the queue that all else is on. */
final class Carrier {
  private final EventQueue queue;
  private final NoisyLine line;
  private final Consumer<byte[]> out;
  private final EventQueue.Timer timer;

  /**
   * @param out takes what comes out, in the call that sends it where nothing holds it up
   */
  Carrier(EventQueue queue, NoisyLine line, Consumer<byte[]> out) {
    this.queue = queue;
    this.line = line;
    this.out = out;
    this.timer = queue.timer(this::arrive);
  }

  void send(byte[] bytes) {
    line.send(bytes, queue.nowNs());
    arrive();
  }

  private void arrive() {
    long nowNs = queue.nowNs();
    for (byte[] bytes = line.take(nowNs); bytes.length > 0; bytes = line.take(nowNs)) {
      out.accept(bytes);
    }
    if (line.nextNs() != timer.dueNs()) {
      timer.at(line.nextNs());
    }
  }
}
