package cardproof.link;

import java.util.Optional;

/** Whether a gated step missed and the fixture waits to be told to go on. */
final class Hold {
  private static final int NONE = -1;

  private int heldAt = NONE;
  private int resumedAt = NONE;
  private int toldAt = NONE;
  private Optional<Status> status = Optional.empty();

  /** A result says that this step missed. */
  void missed(int number) {
    if (number > Math.max(heldAt, resumedAt)) {
      heldAt = number;
      status = Optional.empty();
    }
  }

  /**
   * A status may say that the last finished step missed; a late one is about a hold that is over.
   */
  void take(Status news) {
    int number = news.finished() - 1;
    if (news.state() == FixtureState.HELD && number > resumedAt) {
      heldAt = number;
      status = Optional.of(news);
    }
  }

  void resumed(int number) {
    resumedAt = Math.max(resumedAt, number);
  }

  boolean isHeld() {
    return heldAt > resumedAt;
  }

  /** Held by the word of a result, with no status yet that says how things are. */
  boolean lacksStatus() {
    return isHeld() && status.isEmpty();
  }

  /** Whether the hold can be told now that every result below {@code delivered} was handed out. */
  boolean isDue(int delivered) {
    return isHeld() && status.isPresent() && toldAt < heldAt && delivered > heldAt;
  }

  /** The hold, once. */
  Optional<Status> event(int delivered) {
    if (!isDue(delivered)) {
      return Optional.empty();
    }
    toldAt = heldAt;
    return status;
  }
}
