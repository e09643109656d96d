package cardproof.run;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.fixture.Observation;
import cardproof.fixture.Pattern;
import cardproof.fixture.Session;
import cardproof.fixture.SessionEvent;
import cardproof.link.DropCause;
import cardproof.link.LinkException;
import cardproof.link.Status;
import cardproof.log.PowerOn;
import cardproof.log.RunEnd;
import cardproof.log.Verdict;
import cardproof.plan.Audits;
import cardproof.plan.PatternStep;
import cardproof.plan.Plan;
import cardproof.plan.Power;
import cardproof.plan.Prediction;
import cardproof.plan.Trial;
import cardproof.plan.Vector;
import cardproof.plan.VectorSource;
import cardproof.text.Micros;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.LongSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Takes a plan through a session, vector by vector, in order: submits ahead of need, judges what
 * comes back, records it, and only when the record is safe acknowledges it to the fixture and tells
 * the listeners. The drives are down when {@link #run} returns.
 *
 * <p>A failure on a card that holds state makes that state unknown: what follows is judged only as
 * far as vectors establish it again. One thread; {@link StopSignal} may come from another.
 */
public final class Runner {
  private static final Logger LOG = LoggerFactory.getLogger(Runner.class);

  /** That a card goes on moving after these is no news. */
  private static final Set<Verdict> KNOWN_TO_MOVE =
      EnumSet.of(Verdict.CHATTER, Verdict.UNSETTLED, Verdict.UNTESTED);

  /** Longest wait before the stop signal is looked at again. */
  private static final long SLICE_NS = 50_000_000L;

  /** How long a vector that is under way may take when the run is asked to stop. */
  private static final long FINISH_NS = 1_000_000_000L;

  private static final long FOREVER_NS = Long.MAX_VALUE;

  private final Session session;
  private final Plan plan;
  private final VectorSource source;
  private final Prediction prediction;
  private final Judge judge;
  private final Card card;
  private final Records records;
  private final RunOptions options;
  private final StopSignal stop;
  private final List<RunListener> listeners;
  private final Audits audits = new Audits();
  private final Deque<Vector> inFlight = new ArrayDeque<>();
  private final List<Judged> unreported = new ArrayList<>();
  private final LongSupplier nanoTime;
  private long armedNs;
  private long committedNs;
  private boolean linked;
  private boolean failed;
  private int observed;
  private Judged last;

  /** Made already, but not handed over. */
  private Optional<Waiting> waiting = Optional.empty();

  private record Waiting(Vector vector, Pattern pattern) {}

  private Observation trip;
  private final Sweeping sweeping;
  private final ClockComparison clocks = new ClockComparison();
  private Presence presence;
  private Optional<SupplySwitch> supplySwitch = Optional.empty();
  private Optional<CoilCount> coils = Optional.empty();

  /** Has this one count coils by the current of each vector. */
  public Runner counting(CoilCount by) {
    coils = Optional.of(by);
    return this;
  }

  /** Has this one know when its program was stopped or its computer asleep. */
  public Runner noticing(Presence by) {
    presence = by;
    return this;
  }

  /** The fixture's clock beside this computer's, as far as the run went. */
  public ClockComparison clocks() {
    return clocks;
  }

  /** Has this one switch the supply where a step asks for it. */
  public Runner switching(SupplySwitch by) {
    supplySwitch = Optional.of(by);
    return this;
  }

  public Runner(
      Session session,
      Plan plan,
      Records records,
      RunOptions options,
      StopSignal stop,
      LongSupplier nanoTime,
      List<RunListener> listeners) {
    this.session = session;
    this.plan = plan;
    this.card = plan.card();
    this.source = plan.vectors();
    this.prediction = new Prediction(card);
    this.judge = new Judge(card);
    this.records = records;
    this.options = options;
    this.stop = stop;
    this.nanoTime = nanoTime;
    this.listeners = List.copyOf(listeners);
    this.sweeping = new Sweeping(card, records);
    this.presence = new Presence(nanoTime, () -> 0);
    source.skip(options.from());
    if (options.stateLost()) {
      prediction.forget();
    }
  }

  /**
   * Runs to the plan's end or to what ends it before; link trouble is an ending, not an exception.
   *
   * @throws RefusedException when the fixture cannot do what a step asks for, or a vector cannot be
   */
  public RunEnding run() {
    checkSequences();
    checkPower();
    RunEnding ending;
    boolean orderly = false;
    armedNs = nanoTime.getAsLong();
    committedNs = armedNs;
    try {
      session.arm();
      present(FOREVER_NS);
      linked = true;
      ending = go();
      session.stop();
      orderly = true;
    } catch (LinkException lost) {
      present(SLICE_NS);
      ending = Endings.lost(lost, about());
      orderly = true;
    } finally {
      if (!orderly) {
        dropFirst();
      }
    }
    linked = false;
    leaveUntested(ending);
    sweeping.over();
    flush();
    return ending;
  }

  /** An error of this program, or a full disk: whatever else is to be closed can wait. */
  private void dropFirst() {
    try {
      session.stop();
    } catch (LinkException silent) {
      LOG.debug("{}: no STOP at an error; the fixture drops by itself", session.name(), silent);
    }
  }

  /** From arming to the last commit, on the clock that was given. */
  public long wallNs() {
    return committedNs - armedNs;
  }

  private RunEnding go() {
    while (true) {
      if (stop.reason().isPresent()) {
        return finishAndStop();
      }
      Optional<RunEnding> cut = submitAhead();
      if (cut.isPresent()) {
        return cut.get();
      }
      if (stop.reason().isPresent()) {
        continue;
      }
      if (inFlight.isEmpty() && waiting.isEmpty() && !source.hasNext()) {
        return restAfterLast();
      }
      SessionEvent event = await();
      if (event instanceof SessionEvent.Observed observed) {
        take(observed.observation());
      } else if (event instanceof SessionEvent.Dropped dropped) {
        return dropped(dropped.status());
      } else if (event instanceof SessionEvent.Held held && !failed) {
        // the fixture looks at every line, expected or not; of all that were judged none failed
        session.resume(held.status());
      }
      if (options.stopOnFail() && failed && !session.eventReady()) {
        return stoppedAtFailure();
      }
      if (!session.eventReady()) {
        flush();
      }
    }
  }

  private SessionEvent await() {
    SessionEvent event = session.await(SLICE_NS);
    present(SLICE_NS);
    return event;
  }

  private void present(long waitNs) {
    if (presence.look(waitNs)) {
      clocks.startOver();
    }
  }

  private Endings.About about() {
    return Endings.About.of(session, presence.absenceMs());
  }

  /** The vector under way has its end where that comes soon; what is queued behind it has none. */
  private RunEnding finishAndStop() {
    int enough = observed + 1;
    long untilNs = session.nowNs() + FINISH_NS;
    while (!inFlight.isEmpty()
        && observed < enough
        && !stop.isUrgent()
        && session.nowNs() < untilNs) {
      SessionEvent event = await();
      if (event instanceof SessionEvent.Observed seen) {
        take(seen.observation());
      } else if (event instanceof SessionEvent.Dropped dropped && !stop.isUrgent()) {
        return dropped(dropped.status());
      }
    }
    String why = "stopped by the operator (" + stop.reason().orElseThrow() + ")";
    return new RunEnding(RunEnd.STOPPED, why, Optional.empty());
  }

  /** How the run ends where the supply was to be switched and the fixture dropped its drives. */
  private Optional<RunEnding> submitAhead() {
    while (session.hasRoom() && (waiting.isPresent() || source.hasNext())) {
      if (waiting.isEmpty()) {
        if (source.trialIsNext() && !inFlight.isEmpty()) {
          return Optional.empty(); // which time it tries hangs on all that came before
        }
        Vector vector = source.next();
        waiting = Optional.of(new Waiting(vector, pattern(vector)));
      }
      if (!session.hasRoomFor(waiting.get().pattern())) {
        return Optional.empty();
      }
      Optional<Power> power = waiting.get().vector().step().power();
      if (power.isPresent()) {
        if (!inFlight.isEmpty()) {
          return Optional.empty(); // all before it is to be judged first
        }
        Optional<RunEnding> cut = turn(power.get());
        if (power.get().on()) {
          long vector = waiting.get().vector().number();
          records.powerOn(new PowerOn(vector, supplySwitch.orElseThrow().how()));
        }
        if (cut.isPresent() || stop.reason().isPresent()) {
          return cut;
        }
      }
      session.submit(waiting.get().pattern());
      inFlight.add(waiting.get().vector());
      waiting = Optional.empty();
    }
    return Optional.empty();
  }

  /** Lets the vector before have its last word, then has the supply switched. */
  private Optional<RunEnding> turn(Power power) {
    RunEnding rested = restAfterLast();
    if (rested.end() != RunEnd.FINISHED) {
      return Optional.of(rested);
    }
    if (supplySwitch.orElseThrow().turn(power.on(), session)) {
      observed = 0;
    }
    SessionEvent event =
        stop.reason().isEmpty()
            ? session.pause(power.waitUs() * 1_000)
            : new SessionEvent.Nothing();
    present(FOREVER_NS); // who was asked to switch may have taken any time
    if (event instanceof SessionEvent.Dropped dropped) {
      return Optional.of(dropped(dropped.status()));
    }
    return Optional.empty();
  }

  private Pattern pattern(Vector vector) {
    return new Pattern(
        vector.level(),
        vector.enabled(),
        vector.expect(),
        vector.trial().map(Trial::lines).orElseGet(vector::care),
        vector.still(),
        vector.timing().longestLimitUs(),
        vector.timing().watchUs(),
        vector.timing().quietUs(),
        audits.includes(vector),
        options.stopOnFail() && !vector.measured(),
        vector.step().dwellUs(),
        options.capture(),
        vector.later().stream()
            .map(moment -> new Pattern.Later(moment.atUs(), moment.level(), moment.enabled()))
            .toList());
  }

  /** Said before anything is driven: halfway through a plan would be too late. */
  private void checkSequences() {
    int most = session.hello().mostEntriesOfSequence();
    plan.longestSequence()
        .filter(step -> step.switches() > most)
        .ifPresent(
            step -> {
              throw new RefusedException(
                  Problem.at(
                      step.at(),
                      "this step has "
                          + (step.sweep().isPresent() ? "a sweep, with " : "a sequence of ")
                          + step.switches()
                          + " later settings, and the board '"
                          + session.hello().board()
                          + "' "
                          + (most == 0 ? "runs no timed sequences" : "runs " + most + " at most"),
                      "a fixture that switches so often within one vector, on its own clock",
                      "Load firmware with timed sequences onto it, leave the step out by its tags, or"
                          + " run the plan on the simulated bench"));
            });
  }

  /** Said before anything is driven: somebody has to be there who can switch. */
  private void checkPower() {
    Optional<PatternStep> step = plan.firstPower();
    if (step.isPresent() && supplySwitch.isEmpty()) {
      throw new RefusedException(
          Problem.at(
              step.get().at(),
              "this step switches the card's supply, and nobody is there to do it",
              "a fixture with a supply switch, or a terminal to ask at",
              "Name the profile of such a fixture with --fixture, or leave the step out with"
                  + " --skip"));
    }
  }

  private void take(Observation observation) {
    clocks.take(session.nowNs(), observation.startUs() + observation.durationUs());
    boolean switched =
        !inFlight.isEmpty() && inFlight.peek().step().power().isPresent(); // of course it stirs
    if (last != null && any(observation.stirred()) && !switched) {
      reopenLast(observation.stirred());
    }
    if (observation.tripped()) {
      trip = observation;
      return;
    }
    Vector vector = prediction.again(inFlight.remove());
    observed++;
    sweeping.over(vector);
    record(counted(new Judged(vector, observation, judge.judge(vector, observation))));
    source.sweep().ifPresent(sweep -> sweeping.learn(sweep, last));
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
    if (isFailure(judged)) {
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
  private void reopenLast(long[] stirred) {
    if (!KNOWN_TO_MOVE.contains(last.judgement().verdict())) {
      sweeping.doubt(last, stirred);
      supersedeLast(judge.reopened(stirred));
    }
  }

  private void supersedeLast(Judgement judgement) {
    flush();
    last = new Judged(last.vector(), last.observation(), judgement, last.expectedMa());
    records.supersedeLast(last.judgement());
    records.commit();
    committedNs = nanoTime.getAsLong();
    listeners.forEach(listener -> listener.superseded(last));
    noteFailure();
  }

  /** Makes records safe, then acknowledges them while the link is up, then tells of them. */
  private void flush() {
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

  /** The last verdict is final only when the card has stayed quiet for once more its window. */
  private RunEnding restAfterLast() {
    flush();
    if (last == null) {
      return RunEnding.finished();
    }
    long restNs = last.vector().timing().quietUs() * 1_000;
    SessionEvent event = session.rest(restNs);
    present(restNs + SLICE_NS);
    if (event instanceof SessionEvent.Dropped dropped) {
      return dropped(dropped.status());
    }
    if (event instanceof SessionEvent.Rested rested && any(rested.stirred())) {
      reopenLast(rested.stirred());
    }
    return RunEnding.finished();
  }

  private RunEnding dropped(Status status) {
    if (status.cause() == DropCause.STOP && stop.isUrgent()) {
      return finishAndStop(); // somebody else has stopped it for us
    }
    RunEnding ending = Endings.dropped(status, about());
    if (ending.end() != RunEnd.TRIPPED) {
      return ending;
    }
    return switch (status.cause()) {
      case SUPPLY -> supplyTripped(ending);
      case CHATTER -> chattered(ending, session.chattering(status));
      default -> heldTooLong(ending);
    };
  }

  private RunEnding chattered(RunEnding ending, Optional<Line> line) {
    if (trip != null) {
      Vector vector = prediction.again(inFlight.remove());
      record(new Judged(vector, trip, judge.chatter(trip, line)));
      return Endings.named(ending, " " + Micros.text(trip.durationUs()) + " into ", vector);
    }
    if (last == null) {
      return ending;
    }
    supersedeLast(judge.chatter(last.observation(), line));
    return Endings.named(ending, " after ", last.vector());
  }

  /** That a pattern was held too long says nothing of the card: its vector has no verdict. */
  private RunEnding heldTooLong(RunEnding ending) {
    if (trip != null && !inFlight.isEmpty()) {
      return Endings.named(ending, " in ", inFlight.peek());
    }
    return last == null ? ending : Endings.named(ending, " after ", last.vector());
  }

  /** The vector in which it tripped has failed, and is named; one that was over by then stands. */
  private RunEnding supplyTripped(RunEnding ending) {
    if (trip != null) {
      Vector vector = prediction.again(inFlight.remove());
      record(new Judged(vector, trip, SupplyJudge.tripped(trip.supply())));
      return Endings.named(ending, " in ", last.vector());
    }
    return last == null ? ending : Endings.named(ending, " after ", last.vector());
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
    return judged.judgement().verdict().isFailure();
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
