package cardproof.sim;

import cardproof.link.Edge;
import java.util.ArrayList;
import java.util.List;

/**
 * The edges of the one step with capture that the fixture keeps: {@code
 * firmware-notes/protocol.md}, section 9.2. Times in nanoseconds.
 */
final class EdgeLog {
  private static final int NONE = -1;
  private static final int MOST_UNKEPT = 65535;
  private static final int NS_PER_US = 1000;

  private final int most;
  private final List<Edge> edges = new ArrayList<>();
  private int number = NONE;
  private boolean running;
  private long startNs;
  private int unkept;

  EdgeLog(int most) {
    this.most = most;
  }

  void clear() {
    number = NONE;
    running = false;
    edges.clear();
    unkept = 0;
  }

  /** This step starts; there must be room. */
  void start(int step, long nowNs) {
    clear();
    number = step;
    startNs = nowNs;
    running = true;
  }

  /** The step that is running, if it is the one with capture, has ended. */
  void end() {
    running = false;
  }

  void changed(long nowNs, int watch, boolean level) {
    if (!running) {
      return;
    }
    if (edges.size() < most) {
      edges.add(new Edge((nowNs - startNs) / NS_PER_US, watch, level));
    } else {
      unkept = Math.min(MOST_UNKEPT, unkept + 1);
    }
  }

  /** Steps below this number are acknowledged. */
  void acknowledge(int below) {
    if (number != NONE && !running && Integer.compareUnsigned(number, below) < 0) {
      clear();
    }
  }

  /** Whether another step with capture may be taken. */
  boolean isFree() {
    return number == NONE;
  }

  /** Whether the edges of this step are there, all of them. */
  boolean has(int step) {
    return number == step && number != NONE && !running;
  }

  /** What is kept. Not to be changed. */
  List<Edge> edges() {
    return edges;
  }

  int unkept() {
    return unkept;
  }
}
