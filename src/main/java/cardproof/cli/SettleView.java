package cardproof.cli;

import cardproof.log.RunSummary;
import cardproof.log.UnitId;
import cardproof.timing.history.LineHistory;
import cardproof.timing.history.TransitionRow;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.PriorityQueue;

/**
 * Settle times of a unit, ready to be shown.
 *
 * @param unit whose they are
 * @param runs whose times are here, newest first
 * @param leftOut runs whose times are void
 * @param lines lines and directions that have times
 */
record SettleView(
    UnitId unit, List<RunSummary> runs, List<RunSummary> leftOut, List<LineHistory> lines) {

  /** A transition, and the line and direction it is of. */
  record Found(LineHistory line, TransitionRow row) {}

  private static final Comparator<Found> FASTEST_FIRST =
      Comparator.comparingDouble((Found found) -> found.row().slowestUs());

  /** The slowest transitions of all lines by the slowest time each ever took, slowest first. */
  List<Found> slowest(int most) {
    PriorityQueue<Found> kept = new PriorityQueue<>(FASTEST_FIRST);
    for (LineHistory line : lines) {
      line.forEachTransition(
          row -> {
            kept.add(new Found(line, row));
            if (kept.size() > most) {
              kept.remove();
            }
          });
    }
    List<Found> slowest = new ArrayList<>(kept);
    slowest.sort(FASTEST_FIRST.reversed());
    return slowest;
  }
}
