package cardproof.card;

import java.util.List;

/** For the lines driven, a behaviour's states go on changing for ever. */
public final class NeverRestsException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final transient List<String> loop;

  NeverRestsException(List<String> loop) {
    super(String.join(" -> ", loop));
    this.loop = List.copyOf(loop);
  }

  /** Names round the circle that feeds itself, the first repeated at the end. */
  public List<String> loop() {
    return loop;
  }
}
