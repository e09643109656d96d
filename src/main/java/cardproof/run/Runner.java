package cardproof.run;

import cardproof.fixture.Observation;
import cardproof.fixture.Pattern;
import cardproof.fixture.Session;
import cardproof.fixture.SessionEvent;
import cardproof.link.DropCause;
import cardproof.link.LinkException;
import cardproof.link.Status;
import cardproof.log.PowerOn;
import cardproof.log.RunEnd;
import cardproof.plan.Plan;
import cardproof.plan.Power;
import cardproof.plan.Vector;
import cardproof.plan.VectorSource;
import cardproof.text.RefusedException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
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

  /** Longest wait before the stop signal is looked at again. */
  private static final long SLICE_NS = 50_000_000L;

  /** How long a vector that is under way may take when the run is asked to stop. */
  private static final long FINISH_NS = 1_000_000_000L;

  private static final long FOREVER_NS = Long.MAX_VALUE;

  private final Session session;
  private final Plan plan;
  private final VectorSource source;
  private final RunOptions options;
  private final StopSignal stop;
  private final LongSupplier nanoTime;
  private final Patterns patterns;
  private final Results results;
  private final Trips trips;
  private final Deque<Vector> inFlight = new ArrayDeque<>();
  private final ClockComparison clocks = new ClockComparison();
  private Presence presence;
  private Optional<SupplySwitch> supplySwitch = Optional.empty();
  private long armedNs;
  private boolean linked;

  /** Made already, but not handed over. */
  private Optional<Waiting> waiting = Optional.empty();

  private record Waiting(Vector vector, Pattern pattern) {}

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
    this.source = plan.vectors();
    this.options = options;
    this.stop = stop;
    this.nanoTime = nanoTime;
    this.patterns = new Patterns(options);
    this.results = new Results(session, plan.card(), source, records, nanoTime, listeners);
    this.trips = new Trips(session, results, inFlight);
    this.presence = new Presence(nanoTime, () -> 0);
    source.skip(options.from());
    if (options.stateLost()) {
      results.stateLost();
    }
  }

  /** Has this one count coils by the current of each vector. */
  public Runner counting(CoilCount by) {
    results.counting(by);
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

  /**
   * Runs to the plan's end or to what ends it before; link trouble is an ending, not an exception.
   *
   * @throws RefusedException when the fixture cannot do what a step asks for, or a vector cannot be
   */
  public RunEnding run() {
    PlanNeeds.check(plan, session.hello(), supplySwitch.isPresent());
    RunEnding ending;
    boolean orderly = false;
    armedNs = nanoTime.getAsLong();
    results.began(armedNs);
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
    results.endSweep();
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
    return results.committedNs() - armedNs;
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
      } else if (event instanceof SessionEvent.Held held && !results.failed()) {
        // the fixture looks at every line, expected or not; of all that were judged none failed
        session.resume(held.status());
      }
      if (options.stopOnFail() && results.failed() && !session.eventReady()) {
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
    int enough = results.observed() + 1;
    long untilNs = session.nowNs() + FINISH_NS;
    while (!inFlight.isEmpty()
        && results.observed() < enough
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
        waiting = Optional.of(new Waiting(vector, patterns.of(vector)));
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
          results.powerOn(new PowerOn(vector, supplySwitch.orElseThrow().how()));
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
      results.openedAnew();
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

  private void take(Observation observation) {
    clocks.take(session.nowNs(), observation.startUs() + observation.durationUs());
    boolean switched =
        !inFlight.isEmpty() && inFlight.peek().step().power().isPresent(); // of course it stirs
    if (results.last().isPresent() && any(observation.stirred()) && !switched) {
      results.reopenLast(observation.stirred(), linked);
    }
    if (observation.tripped()) {
      trips.saw(observation);
    } else {
      results.take(inFlight.remove(), observation);
    }
  }

  private void flush() {
    results.flush(linked);
  }

  /** The last verdict is final only when the card has stayed quiet for once more its window. */
  private RunEnding restAfterLast() {
    flush();
    Optional<Judged> last = results.last();
    if (last.isEmpty()) {
      return RunEnding.finished();
    }
    long restNs = last.get().vector().timing().quietUs() * 1_000;
    SessionEvent event = session.rest(restNs);
    present(restNs + SLICE_NS);
    if (event instanceof SessionEvent.Dropped dropped) {
      return dropped(dropped.status());
    }
    if (event instanceof SessionEvent.Rested rested && any(rested.stirred())) {
      results.reopenLast(rested.stirred(), linked);
    }
    return RunEnding.finished();
  }

  private RunEnding dropped(Status status) {
    if (status.cause() == DropCause.STOP && stop.isUrgent()) {
      return finishAndStop(); // somebody else has stopped it for us
    }
    RunEnding ending = Endings.dropped(status, about());
    return ending.end() == RunEnd.TRIPPED ? trips.named(ending, status) : ending;
  }

  private RunEnding stoppedAtFailure() {
    String why = "stopped at the first failure, as asked";
    return new RunEnding(RunEnd.STOPPED, why, Optional.empty());
  }

  /** Vectors that were handed over and never judged are recorded as what they are. */
  private void leaveUntested(RunEnding ending) {
    while (!inFlight.isEmpty()) {
      results.takeUntested(inFlight.remove(), ending.why());
    }
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
