package cardproof.link;

import java.util.List;

/**
 * A step whose drives go on changing on the fixture's own clock.
 *
 * @param step what a STEP says; its drives are those of the start
 * @param entries at least one, in rising order of time
 */
public record Sequence(Step step, List<Switching> entries) implements Message {
  public Sequence {
    entries = List.copyOf(entries);
  }

  /** Most entries, 255 at the most, that fit a frame of so many bytes before COBS. */
  public static int mostEntries(int drives, int watches, int longestFrame) {
    return SequenceFormat.mostEntries(drives, watches, longestFrame);
  }
}
