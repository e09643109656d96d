package cardproof.files.draft;

import cardproof.card.Bus;
import java.util.List;
import java.util.Optional;

/**
 * A word that might show something.
 *
 * @param levels by bus index
 * @param pulsed a line that goes to 1 and back when the word is there
 * @param patterns what is driven, one after another
 */
record TrialWord(long[] levels, Optional<Bus> pulsed, List<long[]> patterns) {
  static TrialWord alone(long[] levels) {
    return new TrialWord(levels, Optional.empty(), List.of(levels));
  }

  /**
   * @param line its index
   */
  static TrialWord pulsed(long[] levels, Bus bus, int line) {
    long[] off = levels.clone();
    off[line] = 0;
    long[] on = levels.clone();
    on[line] = 1;
    return new TrialWord(off, Optional.of(bus), List.of(off, on, off));
  }
}
