package cardproof.run;

import cardproof.card.Card;
import cardproof.fixture.Observation;
import cardproof.fixture.Session;
import cardproof.log.PowerOn;
import cardproof.log.Verdict;
import cardproof.plan.Prediction;
import cardproof.plan.Vector;
import cardproof.plan.VectorSource;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.LongSupplier;

/**
 * What came back: judged, recorded, and only when the record is safe acknowledged to the fixture
 * and told to the listeners. One thread.
 */
final class Results {
  /** That a card goes on moving after these is no news. */
  private static final Set<Verdict> KNOWN_TO_MOVE =
      EnumSet.of(Verdict.CHATTER, Verdict.UNSETTLED, Verdict.UNTESTED);

  private final Session session;
  private final Card card;
  private final VectorSource source;
  private final Records records;
  private final LongSupplier nanoTime;
  private final List<RunListener> listeners;
  private final Prediction prediction;
  private final Judge judge;
  private final Sweeping sweeping;
  private final List<Judged> unreported = new ArrayList<>();
  private Optional<CoilCount> coils = Optional.empty();
  private Judged last;
  private boolean failed;
  private int observed;
  private long committedNs;

  Results(
      Session session,
      Card card,
      VectorSource source,
      Records records,
      LongSupplier nanoTime,
      List<RunListener> listeners) {
    this.session = session;
    this.card = card;
    this.source = source;
    this.records = records;
    this.nanoTime = nanoTime;
    this.listeners = List.copyOf(listeners);
    this.prediction = new Prediction(card);
    this.judge = new Judge(card);
    this.sweeping = new Sweeping(card, records);
  }

  void counting(CoilCount by) {
    coils = Optional.of(by);
  }

  /** What the card keeps is not known. */
  void stateLost() {
    prediction.forget();
  }

  /** Patterns of the session are counted from 0 again. */
  void openedAnew() {
    observed = 0;
  }

  /** How many patterns of this session were taken. */
  int observed() {
    return observed;
  }

  /** Whether any vector so far did not pass. */
  boolean failed() {
    return failed;
  }

  /** The vector that was judged last. */
  Optional<Judged> last() {
    return Optional.ofNullable(last);
  }

  Judge judge() {
    return judge;
  }

  /** From here on time counts. */
  void began(long atNs) {
    committedNs = atNs;
  }

  /** When records were made safe last, on the clock that was given. */
  long committedNs() {
    return committedNs;
  }

  /** Takes what came of the vector that has waited longest. */
  void take(Vector submitted, Observation observation) {
    Vector vector = prediction.again(submitted);
    observed++;
    sweeping.over(vector);
    record(counted(new Judged(vector, observation, judge.judge(vector, observation))));
    source.sweep().ifPresent(sweep -> sweeping.learn(sweep, last));
  }

  /** Takes the vector in which the fixture dropped the drives by itself. */
  void takeTripped(Vector submitted, Observation trip, Judgement judgement) {
    record(new Judged(prediction.again(submitted), trip, judgement));
  }

  /** Takes one that was handed over and never judged. */
  void takeUntested(Vector vector, String why) {
    Observation nothing = Observation.none(card.buses().size());
    record(new Judged(vector, nothing, Judgement.untested(why)));
  }

  /** Takes that the supply came on before a vector. */
  void powerOn(PowerOn power) {
    records.powerOn(power);
  }

  /** The same with what its current says. */
  private Judged counted(Judged judged) {
    if (coils.isEmpty()) {
      return judged;
    }
    CoilCount.Count count = coils.get().take(judged);
    count.findings().forEach(records::finding);
    Judgement judgement = judged.judgement();
    return new Judged(
        judged.vector(),
        judged.observation(),
        count.note().isEmpty()
            ? judgement
            : new Judgement(
                judgement.verdict(), judgement.why() + "; " + count.note(), judgement.bits()),
        count.expectedMa());
  }

  private void record(Judged judged) {
    records.append(judged);
    unreported.add(judged);
    last = judged;
    if (judged.isFailure()) {
      noteFailure();
    }
  }

  private void noteFailure() {
    failed = true;
    if (card.hasState()) {
      prediction.forget();
    }
  }

  /** Lines moved after the last vector had been judged: it had not settled after all. */
  void reopenLast(long[] stirred, boolean linked) {
    if (!KNOWN_TO_MOVE.contains(last.judgement().verdict())) {
      sweeping.doubt(last, stirred);
      supersedeLast(judge.reopened(stirred), linked);
    }
  }

  /** Puts another judgement in the place of the last. */
  void supersedeLast(Judgement judgement, boolean linked) {
    flush(linked);
    last = new Judged(last.vector(), last.observation(), judgement, last.expectedMa());
    records.supersedeLast(last.judgement());
    records.commit();
    committedNs = nanoTime.getAsLong();
    listeners.forEach(listener -> listener.superseded(last));
    noteFailure();
  }

  /** Records what a sweep under way has found, be it that it was cut short. */
  void endSweep() {
    sweeping.over();
  }

  /**
   * Makes records safe, then acknowledges them, then tells of them.
   *
   * @param linked whether the fixture can be told
   */
  void flush(boolean linked) {
    if (unreported.isEmpty() && !sweeping.hasNews()) {
      return;
    }
    records.commit();
    committedNs = nanoTime.getAsLong();
    if (linked) {
      session.acknowledge(observed);
    }
    for (Judged judged : unreported) {
      listeners.forEach(listener -> listener.judged(judged));
    }
    unreported.clear();
  }
}
