package cardproof.cli;

import cardproof.card.Card;
import cardproof.fixture.HookUp;
import cardproof.fixture.SenseRange;
import cardproof.fixture.Session;
import cardproof.fixture.SessionSettings;
import cardproof.fixture.SupplySide;
import cardproof.fixture.WatchSide;
import cardproof.link.LinkException;
import cardproof.link.Wire;
import cardproof.link.serial.SerialPorts;
import cardproof.link.serial.SerialWire;
import cardproof.link.serial.Signals;
import cardproof.log.BenchLog;
import cardproof.log.PowerOn;
import cardproof.log.RunEnd;
import cardproof.log.RunWriter;
import cardproof.run.CardSupply;
import cardproof.run.CoilCount;
import cardproof.run.FirstFailures;
import cardproof.run.Judged;
import cardproof.run.Presence;
import cardproof.run.Records;
import cardproof.run.RunEnding;
import cardproof.run.RunListener;
import cardproof.run.Runner;
import cardproof.run.StopSignal;
import cardproof.run.SupplyTally;
import cardproof.run.Tally;
import cardproof.sim.SimSettings;
import cardproof.sim.SimulatedBench;
import cardproof.sim.circuit.RelayCircuit;
import cardproof.text.Problem;
import cardproof.timing.SettleTable;
import java.security.SecureRandom;
import java.time.Clock;
import java.util.BitSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.random.RandomGenerator;
import java.util.stream.Stream;

/** Opens fixture and log, runs a checked plan, and says what came of it. */
final class PlanRun {
  private static final int FAILURES_KEPT = 100;

  private final RunSetup setup;
  private final Screen screen;
  private final StopSignal stop;
  private final StopHandler stopHandler;
  private final Card card;
  private final Clock clock = Clock.systemUTC();
  private boolean powerByHand;

  PlanRun(RunSetup setup, Screen screen, StopSignal stop) {
    this(setup, screen, stop, new StopHandler(stop));
  }

  private PlanRun(RunSetup setup, Screen screen, StopSignal stop, StopHandler stopHandler) {
    this.setup = setup;
    this.screen = screen;
    this.stop = stop;
    this.stopHandler = stopHandler;
    this.card = setup.plan().card();
  }

  /** Another run by the same person at the same terminal. */
  PlanRun again(RunSetup other) {
    return new PlanRun(other, screen, stop, stopHandler);
  }

  /** The same, before which somebody switched the card's supply off and on. */
  PlanRun afterPowerByHand() {
    powerByHand = true;
    return this;
  }

  /** Whether there is a port, and somebody has said that the card may be driven. */
  boolean ready() {
    if (!setup.onBench()) {
      SerialPorts.check(setup.port());
    }
    if (!setup.onBench()
        && !setup.powered()
        && !PowerPrompt.confirmed(card, setup.profile(), screen)) {
      screen.err().println("Nothing was driven.");
      return false;
    }
    Signals.onStop(stopHandler::signal);
    return true;
  }

  /** Runs, prints, and returns the exit code. */
  int run(boolean json) {
    if (!ready()) {
      return ExitCode.STOPPED;
    }
    RunResult result = recordedToItsEnd();
    if (json) {
      screen.out().println(RunJson.of(result));
      result.ending().problem().ifPresent(screen.err()::println);
      result.waveProblem().ifPresent(screen.err()::println);
    } else {
      new RunReport(result, screen).print();
    }
    return exitCode(result);
  }

  /** With all the runs that continue it because its board was gone and came back. */
  RunResult recordedToItsEnd() {
    if (setup.onBench() || setup.reconnect().isEmpty()) {
      return recorded();
    }
    Reconnection reconnection =
        new Reconnection(setup.reconnect().get(), setup, stop, screen.err()::println);
    RunResult result = recorded();
    Optional<RunSetup> next = reconnection.after(result);
    while (next.isPresent()) {
      try {
        result = new PlanRun(next.get(), screen, stop, stopHandler).recorded();
      } catch (LinkException goneAgain) {
        screen.err().println(goneAgain.problem());
        return result; // the run that broke off can be continued as before
      }
      next = reconnection.after(result);
    }
    return result;
  }

  private RunResult recorded() {
    try (BenchLog log = BenchLog.open(setup.logFile(), clock);
        Wire wire = wire();
        WaveRecording wave = wave(wire);
        Session session = session(wire);
        CapturedWave captured = captured(session)) {
      setup.earlier().ifPresent(earlier -> earlier.checkBoard(setup, session.hello()));
      Tally tally = new Tally();
      SupplyTally supplyTally = new SupplyTally();
      FirstFailures failures = new FirstFailures(FAILURES_KEPT);
      try (RunWriter writer =
          log.begin(RunStarts.of(setup, session.hello(), clock.instant()), setup.asked())) {
        Progress progress =
            new Progress(
                screen, System::nanoTime, "vectors", setup.check().vectors() - setup.from());
        writer.powerOn(new PowerOn(setup.from(), powerOn(session)));
        Runner runner =
            new Runner(
                session,
                setup.plan(),
                Records.in(writer, card),
                setup.options(),
                stop,
                System::nanoTime,
                listeners(tally, failures, showing(progress, tally), supplyTally, wave, captured));
        SupplyHands.of(session, wire, screen, stop).ifPresent(runner::switching);
        if (setup.realTime() && wire instanceof SimulatedBench bench) {
          bench.keepTo(new SystemTime()); // not before, or the first vectors make up for opening it
        }
        Optional<CoilCount> coils = coils(session);
        coils.ifPresent(runner::counting);
        runner.noticing(new Presence(System::nanoTime, System::currentTimeMillis));
        RunEnding ending = stoppable(session, runner);
        progress.done();
        warnOf(wire);
        runner.clocks().warning().ifPresent(words -> screen.err().println("warning: " + words));
        runner.clocks().drift().ifPresent(off -> writer.clockOff(Math.round(off * 1e6)));
        writer.end(ending.end(), ending.why(), clock.instant());
        return new RunResult(
            setup,
            writer.runId(),
            session.hello().board(),
            RunStarts.simulated(setup, session.hello()),
            wire instanceof SimulatedBench bench && bench.fromWiring(),
            ending,
            tally,
            failures.failures(),
            SettleTable.of(log, writer.runId()),
            log.sweeps(writer.runId()),
            log.run(writer.runId()).orElseThrow().steps(),
            runner.wallNs(),
            problem(wave, captured),
            supplyTally,
            coils.map(CoilCount::found).orElse(List.of()),
            runner.clocks());
      }
    }
  }

  /**
   * Where the line is one that any thread may write to, an impatient stop may come from another.
   */
  private RunEnding stoppable(Session session, Runner runner) {
    if (setup.onBench()) {
      return powered(session, runner);
    }
    stopHandler.driving(session);
    try {
      return powered(session, runner);
    } finally {
      stopHandler.down();
    }
  }

  /** With a switch in the supply: on before the first vector, off after the last. */
  private RunEnding powered(Session session, Runner runner) {
    if (!session.canSwitchSupply()) {
      return runner.run();
    }
    CardSupply supply = new CardSupply(card, session);
    try {
      return supply.turnOn().orElseGet(runner::run);
    } finally {
      if (setup.keepSupply()) {
        screen.err().println("The card's supply is left on, as asked (--keep-supply).");
      } else {
        supply.turnOff().ifPresent(screen.err()::println);
      }
    }
  }

  private PowerOn.How powerOn(Session session) {
    if (session.canSwitchSupply()) {
      return PowerOn.How.BY_FIXTURE;
    }
    if (powerByHand) {
      return PowerOn.How.BY_HAND;
    }
    return setup.onBench() ? PowerOn.How.SIMULATED : PowerOn.How.FOUND_ON;
  }

  /** Where current is measured, and the wiring says what a sound card would draw. */
  private Optional<CoilCount> coils(Session session) {
    SupplySide side = setup.profile().supply();
    boolean measured = session.senses() && (side.current().isPresent() || !side.canSee());
    if (!measured || card.wiring().isEmpty()) {
      return Optional.empty();
    }
    BitSet watched = new BitSet();
    for (int line : setup.hookUp().lineOfWatch()) {
      if (line != HookUp.NOTHING) {
        watched.set(line);
      }
    }
    double resolutionMa = side.current().map(SenseRange::resolution).orElse(1L);
    return Optional.of(
        new CoilCount(
            card,
            new WiredRest(card, watched, watchOhms()),
            resolutionMa,
            setup.options().stateLost()));
  }

  /** What an input of the fixture loads a line with, as its profile says or as is usual. */
  private int watchOhms() {
    WatchSide watch = setup.profile().watch();
    if (setup.onBench() || !watch.statesLoad()) {
      return RelayCircuit.WATCH_OHMS;
    }
    return (int)
        Math.max(
            1,
            watch.loadMilliamps() > 0
                ? card.supply().millivolts() / watch.loadMilliamps()
                : watch.loadOhms());
  }

  private void warnOf(Wire wire) {
    if (wire instanceof SimulatedBench bench) {
      bench.warnings().ifPresent(w -> BenchWarnings.of(w).forEach(screen.err()::println));
    }
  }

  private Session session(Wire wire) {
    return Session.open(wire, setup.hookUp(), SessionSettings.of(card), random());
  }

  private RandomGenerator random() {
    return setup.onBench() ? new SplittableRandom(setup.seed()) : new SecureRandom();
  }

  private Wire wire() {
    return setup.onBench() ? bench() : SerialWire.open(setup.port(), setup.profile().baud());
  }

  private SimulatedBench bench() {
    return new SimulatedBench(
        card,
        setup.hookUp().lineOfDrive(),
        setup.hookUp().lineOfWatch(),
        new SimSettings(
                setup.seed(),
                setup.unit(),
                setup.faults(),
                setup.profile().slots(),
                setup.profile().samplingNs(),
                0,
                setup.lineFaults(),
                setup.profile().name())
            .withSupply(SimulatedSupply.of(setup.profile().supply())));
  }

  private static Optional<Problem> problem(WaveRecording wave, CapturedWave captured) {
    Optional<Problem> ofWave = wave == null ? Optional.empty() : wave.ended();
    return ofWave.or(() -> captured == null ? Optional.empty() : captured.ended());
  }

  /** Null where none is asked for, which closes as well as one. */
  private CapturedWave captured(Session session) {
    return setup.capture().isPresent()
        ? CapturedWave.start(setup, setup.capture().get(), session.hello())
        : null;
  }

  /** Null where no wave is asked for, which closes as well as one. */
  private WaveRecording wave(Wire wire) {
    return setup.wave().isPresent()
        ? WaveRecording.start(setup, setup.wave().get(), (SimulatedBench) wire)
        : null;
  }

  private static List<RunListener> listeners(
      RunListener tally,
      RunListener failures,
      RunListener progress,
      RunListener supply,
      WaveRecording wave,
      CapturedWave captured) {
    return Stream.of(tally, failures, progress, supply, wave, captured)
        .filter(Objects::nonNull)
        .toList();
  }

  private static RunListener showing(Progress progress, Tally tally) {
    return new RunListener() {
      @Override
      public void judged(Judged judged) {
        long failed = tally.failed();
        progress.at(tally.judgedVectors(), failed == 0 ? "" : failed + " did not pass");
      }

      @Override
      public void superseded(Judged judged) {
        // Counted by the tally; the next vector shows it.
      }
    };
  }

  int exitCode(RunResult result) {
    RunEnd end = result.ending().end();
    if (result.waveProblem().isPresent()) {
      return ExitCode.USAGE;
    }
    return switch (end) {
      case TRIPPED -> ExitCode.TRIPPED;
      case LINK_LOST -> ExitCode.LINK;
      case STOPPED -> stop.reason().isPresent() ? ExitCode.STOPPED : ExitCode.FAILED;
      default -> result.passed() ? ExitCode.PASSED : ExitCode.FAILED;
    };
  }
}
