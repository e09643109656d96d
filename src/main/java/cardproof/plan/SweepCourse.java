package cardproof.plan;

import cardproof.card.Card;
import cardproof.card.Line;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.OptionalLong;

/**
 * A sweep while it goes on: which time is tried next, and what came of those before. One thread.
 */
public final class SweepCourse {
  private final Sweep sweep;
  private final PatternStep step;
  private final Card card;
  private final SweepSearch search;
  private int point;
  private long[] lastWorked;
  private long[] lastTarget;

  SweepCourse(PatternStep step, Card card) {
    this.step = step;
    this.sweep = step.sweep().orElseThrow();
    this.card = card;
    this.search = new SweepSearch(sweep);
    this.lastWorked = new long[card.buses().size()];
    this.lastTarget = new long[card.buses().size()];
  }

  public Sweep sweep() {
    return sweep;
  }

  public PatternStep step() {
    return step;
  }

  /** Goes on to the next time, which both words are tried at. */
  void pick() {
    point = search.next();
  }

  int point() {
    return point;
  }

  /**
   * Takes what came of a trial; the next must not have been made yet. A line that did not show the
   * other level before says nothing.
   *
   * @param before levels before it
   * @param seen levels at its end
   * @param moving lines that were still moving then, which have not taken anything
   */
  public void learn(Trial trial, long[] before, long[] seen, long[] moving) {
    for (int b = 0; b < before.length; b++) {
      long valid = trial.lines()[b] & (before[b] ^ trial.target()[b]);
      long worked = valid & ~(seen[b] ^ trial.target()[b]) & ~moving[b];
      for (long rest = valid; rest != 0; rest &= rest - 1) {
        int bit = Long.numberOfTrailingZeros(rest);
        series(b, bit, trial.target()).take(trial.point(), (worked >>> bit & 1) != 0);
      }
      lastWorked[b] = worked;
      lastTarget[b] = trial.target()[b];
    }
  }

  /** Lines that moved after the trial learnt last had ended: they had not settled. */
  public void doubt(Trial trial, long[] stirred) {
    for (int b = 0; b < stirred.length; b++) {
      for (long rest = lastWorked[b] & stirred[b]; rest != 0; rest &= rest - 1) {
        series(b, Long.numberOfTrailingZeros(rest), lastTarget).didNotWork(trial.point());
      }
      lastWorked[b] &= ~stirred[b];
    }
  }

  /** What was found so far, in the order of the lines, rising first. */
  public List<SweepEdge> edges() {
    List<SweepEdge> edges = new ArrayList<>();
    for (Map.Entry<Integer, SweepSeries> entry : search.all().entrySet()) {
      SweepSeries one = entry.getValue();
      Line line = card.lines().get(entry.getKey() >> 1);
      OptionalInt worked = one.shortestWorked();
      edges.add(
          new SweepEdge(
              line,
              (entry.getKey() & 1) == 0,
              us(worked),
              us(one.longestFailed()),
              us(one.everWorked()),
              one.trials(),
              worked.isPresent() ? one.workedAt(worked.getAsInt()) : 0));
    }
    return List.copyOf(edges);
  }

  private OptionalLong us(OptionalInt index) {
    return index.isPresent()
        ? OptionalLong.of(sweep.range().atUs(index.getAsInt()))
        : OptionalLong.empty();
  }

  private SweepSeries series(int b, int bit, long[] target) {
    int rising = (int) (target[b] >>> bit & 1);
    return search.series((card.firstLine(b) + bit) << 1 | 1 - rising);
  }
}
