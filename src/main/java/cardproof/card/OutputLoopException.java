package cardproof.card;

import java.util.List;

/** Outputs of a behaviour that depend on one another in a circle, with no state to hold a value. */
public final class OutputLoopException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final int busIndex;
  private final transient List<String> loop;

  OutputLoopException(int busIndex, List<String> loop) {
    super(String.join(" -> ", loop));
    this.busIndex = busIndex;
    this.loop = List.copyOf(loop);
  }

  /** A bus on the circle. */
  public int busIndex() {
    return busIndex;
  }

  /** Names round the circle, the first repeated at the end. */
  public List<String> loop() {
    return loop;
  }
}
