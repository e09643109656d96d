package cardproof.run;

import cardproof.card.Card;
import cardproof.fixture.Observation;
import cardproof.log.SweepLine;
import cardproof.log.SweepRecord;
import cardproof.log.Verdict;
import cardproof.plan.Sweep;
import cardproof.plan.SweepCourse;
import cardproof.plan.Trial;
import cardproof.plan.Vector;
import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;

/** Lets the sweep of a plan that is going on learn from its trials, and records what it found. */
final class Sweeping {
  /** Of the card's timing, that is. */
  private static final Set<Verdict> SAYS_NOTHING = EnumSet.of(Verdict.UNTESTED, Verdict.SUPPLY);

  private final Card card;
  private final Records records;
  private Optional<SweepCourse> open = Optional.empty();
  private Vector first;
  private Vector latest;
  private int trials;
  private boolean news;

  Sweeping(Card card, Records records) {
    this.card = card;
    this.records = records;
  }

  /** Before a vector is judged: the sweep before it may be over, and its last trial is final. */
  void over(Vector next) {
    if (open.isPresent() && (next.step() != latest.step() || startsAnew(next))) {
      over();
    }
  }

  /** A step that is gone through again sweeps again. */
  private boolean startsAnew(Vector next) {
    long pass = next.step().vectorCount();
    return next.index() / pass != latest.index() / pass;
  }

  /** Takes a vector that was judged, if it is a trial of this sweep and was seen to its end. */
  void learn(SweepCourse sweep, Judged judged) {
    Vector vector = judged.vector();
    if (vector.trial().isEmpty() || SAYS_NOTHING.contains(judged.judgement().verdict())) {
      return;
    }
    if (open.isEmpty()) {
      open = Optional.of(sweep);
      first = vector;
      trials = 0;
    }
    latest = vector;
    trials++;
    Observation seen = judged.observation();
    sweep.learn(vector.trial().get(), seen.before(), seen.seen(), Trials.moving(vector, seen));
  }

  /** Lines moved after a trial had ended. */
  void doubt(Judged last, long[] stirred) {
    Optional<Trial> trial = last.vector().trial();
    if (trial.isPresent() && open.isPresent()) {
      open.get().doubt(trial.get(), stirred);
    }
  }

  /** Records what the sweep that is open has found, be it that it was cut short. */
  void over() {
    if (open.isEmpty()) {
      return;
    }
    Sweep sweep = open.get().sweep();
    records.sweep(
        new SweepRecord(
            first.number(),
            first.stepNumber(),
            sweep.words(card),
            sweep.range().fromUs(),
            sweep.range().toUs(),
            sweep.range().resolutionUs(),
            sweep.atMostUs(),
            trials,
            sweep.trials(),
            open.get().edges().stream()
                .map(
                    edge ->
                        new SweepLine(
                            edge.line().index(),
                            edge.rising(),
                            edge.workedUs(),
                            edge.failedUs(),
                            edge.everWorkedUs(),
                            edge.trials(),
                            edge.atEdge()))
                .toList()));
    open = Optional.empty();
    news = true;
  }

  /** Whether something was recorded since this was last asked. */
  boolean hasNews() {
    boolean had = news;
    news = false;
    return had;
  }
}
