package cardproof.run;

import cardproof.card.Card;
import cardproof.fixture.Observation;
import cardproof.fixture.Pattern;
import cardproof.fixture.Session;
import cardproof.fixture.SessionEvent;
import cardproof.link.DropCause;
import cardproof.link.LinkException;
import cardproof.link.Status;
import cardproof.log.RunEnd;
import cardproof.log.RunWriter;
import cardproof.log.Verdict;
import cardproof.plan.Plan;
import cardproof.plan.Prediction;
import cardproof.plan.Vector;
import cardproof.plan.VectorSource;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.function.LongSupplier;

/**
 * Takes a plan through a session, vector by vector, in order: submits ahead of need, judges what
 * comes back, records it, and only when the record is safe acknowledges it to the fixture and tells
 * the listeners. The drives are down when {@link #run} returns.
 *
 * <p>A failure on a card that holds state makes that state unknown: what follows is judged only as
 * far as vectors establish it again. One thread; {@link StopSignal} may come from another.
 */
public final class Runner {
  /** Every so many vectors one is watched to its end even when it looks settled. */
  private static final int AUDIT_EVERY = 20;

  /** Longest wait before the stop signal is looked at again. */
  private static final long SLICE_NS = 50_000_000L;

  private final Session session;
  private final VectorSource source;
  private final Prediction prediction;
  private final Judge judge;
  private final Card card;
  private final Recorder recorder;
  private final RunOptions options;
  private final StopSignal stop;
  private final List<RunListener> listeners;
  private final Deque<Vector> inFlight = new ArrayDeque<>();
  private final List<Judged> unreported = new ArrayList<>();
  private int previousStep = -1;
  private final LongSupplier nanoTime;
  private long armedNs;
  private long committedNs;
  private int observed;
  private Judged last;
  private Observation trip;

  public Runner(
      Session session,
      Plan plan,
      RunWriter writer,
      RunOptions options,
      StopSignal stop,
      LongSupplier nanoTime,
      List<RunListener> listeners) {
    this.session = session;
    this.card = plan.card();
    this.source = plan.vectors();
    this.prediction = new Prediction(card);
    this.judge = new Judge(card);
    this.recorder = new Recorder(card, writer);
    this.options = options;
    this.stop = stop;
    this.nanoTime = nanoTime;
    this.listeners = List.copyOf(listeners);
  }

  /**
   * Runs to the plan's end or to what ends it before; link trouble is an ending, not an exception.
   */
  public RunEnding run() {
    RunEnding ending;
    armedNs = nanoTime.getAsLong();
    committedNs = armedNs;
    try {
      session.arm();
      ending = go();
      session.stop();
    } catch (LinkException lost) {
      String why = lost.problem().found();
      ending = new RunEnding(RunEnd.LINK_LOST, why, Optional.of(lost.problem()));
    }
    leaveUntested(ending);
    flush();
    return ending;
  }

  /** From arming to the last commit, on the clock that was given. */
  public long wallNs() {
    return committedNs - armedNs;
  }

  private RunEnding go() {
    while (true) {
      if (stop.reason().isPresent()) {
        String why = "stopped by the operator (" + stop.reason().get() + ")";
        return new RunEnding(RunEnd.STOPPED, why, Optional.empty());
      }
      submitAhead();
      // Nothing in flight with vectors left: there is no room, because the fixture has gone down.
      if (inFlight.isEmpty() && !source.hasNext()) {
        return restAfterLast();
      }
      SessionEvent event = session.await(SLICE_NS);
      if (event instanceof SessionEvent.Observed observed) {
        take(observed.observation());
      } else if (event instanceof SessionEvent.Dropped dropped) {
        return dropped(dropped.status());
      } else if (event instanceof SessionEvent.Held) {
        return stoppedAtFailure();
      }
      if (options.stopOnFail() && last != null && isFailure(last) && !session.eventReady()) {
        return stoppedAtFailure();
      }
      if (!session.eventReady()) {
        flushAndAcknowledge();
      }
    }
  }

  private void submitAhead() {
    while (session.hasRoom() && source.hasNext()) {
      Vector vector = source.next();
      boolean first = vector.stepNumber() != previousStep;
      previousStep = vector.stepNumber();
      boolean audit = first || vector.number() % AUDIT_EVERY == 0;
      session.submit(
          new Pattern(
              vector.level(),
              vector.enabled(),
              vector.expect(),
              vector.care(),
              vector.still(),
              vector.timing().longestLimitUs(),
              vector.timing().watchUs(),
              vector.timing().quietUs(),
              audit,
              options.stopOnFail()));
      inFlight.add(vector);
    }
  }

  private void take(Observation observation) {
    if (observation.tripped()) {
      trip = observation;
      return;
    }
    if (last != null && any(observation.stirred())) {
      reopenLast(observation.stirred());
    }
    Vector vector = prediction.again(inFlight.remove());
    observed++;
    record(new Judged(vector, observation, judge.judge(vector, observation)));
  }

  private void record(Judged judged) {
    recorder.append(judged);
    unreported.add(judged);
    last = judged;
    if (card.hasState() && isFailure(judged)) {
      prediction.forget();
    }
  }

  /** Lines moved after the last vector had been judged: it had not settled after all. */
  private void reopenLast(long[] stirred) {
    flush();
    last = new Judged(last.vector(), last.observation(), judge.reopened(stirred));
    recorder.supersedeLast(last.judgement());
    recorder.commit();
    committedNs = nanoTime.getAsLong();
    listeners.forEach(listener -> listener.superseded(last));
    if (card.hasState()) {
      prediction.forget();
    }
  }

  /** Makes records safe, then acknowledges and reports them, in that order. */
  private void flush() {
    if (unreported.isEmpty()) {
      return;
    }
    recorder.commit();
    committedNs = nanoTime.getAsLong();
    for (Judged judged : unreported) {
      listeners.forEach(listener -> listener.judged(judged));
    }
    unreported.clear();
  }

  private void flushAndAcknowledge() {
    boolean any = !unreported.isEmpty();
    flush();
    if (any) {
      session.acknowledge(observed);
    }
  }

  private RunEnding restAfterLast() {
    flushAndAcknowledge();
    if (last == null) {
      return RunEnding.finished();
    }
    session.rest(last.vector().timing().quietUs() * 1_000);
    long[] stirred = session.stirred();
    if (!session.hasRoom()) { // all is acknowledged, so it has gone down: that is what moved
      return awaitDrop();
    }
    if (any(stirred)) {
      reopenLast(stirred);
    }
    return RunEnding.finished();
  }

  /** The session makes sure first that nothing more will come of it. */
  private RunEnding awaitDrop() {
    while (true) {
      if (session.await(SLICE_NS) instanceof SessionEvent.Dropped dropped) {
        return dropped(dropped.status());
      }
    }
  }

  private RunEnding dropped(Status status) {
    RunEnding ending = Endings.dropped(status, session.hello().boot(), session.name());
    if (status.cause() == DropCause.CHATTER && ending.end() == RunEnd.TRIPPED && trip != null) {
      Vector vector = prediction.again(inFlight.remove());
      record(new Judged(vector, trip, judge.chatter(trip, session.chattering(status))));
    }
    return ending;
  }

  private RunEnding stoppedAtFailure() {
    String why = "stopped at the first failure, as asked";
    return new RunEnding(RunEnd.STOPPED, why, Optional.empty());
  }

  /** Vectors that were handed over and never judged are recorded as what they are. */
  private void leaveUntested(RunEnding ending) {
    Observation nothing = Observation.none(card.buses().size());
    while (!inFlight.isEmpty()) {
      Vector vector = inFlight.remove();
      record(new Judged(vector, nothing, Judgement.untested(ending.why())));
    }
  }

  static boolean isFailure(Judged judged) {
    Verdict verdict = judged.judgement().verdict();
    return verdict != Verdict.PASS && verdict != Verdict.UNTESTED;
  }

  private static boolean any(long[] words) {
    for (long word : words) {
      if (word != 0) {
        return true;
      }
    }
    return false;
  }
}
