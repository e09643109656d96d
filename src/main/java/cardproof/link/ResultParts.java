package cardproof.link;

import java.util.ArrayList;
import java.util.List;

/** Cuts a result into parts that each fit one frame. */
public final class ResultParts {
  private final int entriesPerFrame;

  /**
   * Parts for a fixture with so many watches.
   *
   * @param longestFrame bytes before COBS, at most what the protocol allows
   * @throws IllegalArgumentException when not one entry fits
   */
  public ResultParts(int watches, int longestFrame) {
    this(watches, longestFrame, false);
  }

  /**
   * @param sensed whether every part ends with rail and current
   */
  public ResultParts(int watches, int longestFrame, boolean sensed) {
    int head =
        FrameLayout.SHORTEST
            + ResultFormat.headLength(watches)
            + (sensed ? ResultFormat.SENSE_LENGTH : 0);
    int room = Math.min(longestFrame, FrameLayout.LONGEST) - head;
    this.entriesPerFrame = room / ResultFormat.ENTRY_LENGTH;
    if (entriesPerFrame < 1) {
      throw new IllegalArgumentException(
          "no room for a line in a frame of " + longestFrame + " bytes; a result needs " + head);
    }
  }

  /** Parts in order, at least one; each has the same head and the next entries. */
  public List<Result> split(Result whole) {
    List<MovedWatch> moved = whole.moved();
    if (moved.size() <= entriesPerFrame) {
      return List.of(part(whole, 0, moved.size()));
    }
    List<Result> parts = new ArrayList<>();
    for (int from = 0; from < moved.size(); from += entriesPerFrame) {
      parts.add(part(whole, from, Math.min(from + entriesPerFrame, moved.size())));
    }
    return parts;
  }

  private static Result part(Result whole, int from, int to) {
    return whole.withEntries(whole.moved().size(), from, whole.moved().subList(from, to));
  }
}
