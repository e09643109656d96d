package cardproof.timing;

import cardproof.log.BenchLog;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Settle times of a run, per watched line and direction. Vectors of every verdict count, late and
 * wrong ones among them; a line that did not move in a vector has no time there, nor has one that
 * the fixture itself moved. Directions in which a line never moved have no row.
 *
 * @param run id of the run
 * @param rows by line, falling before rising
 * @param superseded how many records of the run were replaced because the card moved after they
 *     were judged; above 0 the settle times of this run are void
 * @param silence the longest before a change; as long as the quiet window it voids them too
 */
public record SettleTable(
    long run, List<SettleRow> rows, long superseded, Optional<Silence> silence) {
  public SettleTable {
    rows = List.copyOf(rows);
  }

  /**
   * Reads a run of the log, one line at a time: memory grows with the vectors of the run, not with
   * its lines.
   */
  public static SettleTable of(BenchLog log, long run) {
    List<SettleRow> rows = new ArrayList<>();
    RunSettles.forEach(log, run, settles -> rows.add(SettleRow.of(settles)));
    return new SettleTable(run, rows, log.supersededCount(run), Silence.of(log, run));
  }

  /** Whether a card that was called settled moved later, so that no time here can be relied on. */
  public boolean isVoid() {
    return superseded > 0 || silence.filter(longest -> longest.asLong() > 0).isPresent();
  }
}
