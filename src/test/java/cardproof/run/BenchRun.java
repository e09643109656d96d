package cardproof.run;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.card.fault.FaultNames;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.HookUp;
import cardproof.fixture.Session;
import cardproof.fixture.SessionSettings;
import cardproof.link.Wire;
import cardproof.log.BenchLog;
import cardproof.log.FixtureUsed;
import cardproof.log.LineName;
import cardproof.log.RunStart;
import cardproof.log.RunWriter;
import cardproof.log.SumCard;
import cardproof.log.Superseded;
import cardproof.log.UnitId;
import cardproof.log.VectorRecord;
import cardproof.log.Verdict;
import cardproof.plan.Plan;
import cardproof.sim.SimSettings;
import cardproof.sim.SimulatedBench;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.SplittableRandom;
import java.util.function.BiFunction;
import java.util.function.Consumer;
import java.util.function.UnaryOperator;

/** A plan on the simulated bench with all around it, for tests; one thing changed at a time. */
final class BenchRun {
  private final Plan plan;
  private final Path file;
  private final List<RunListener> more = new ArrayList<>();
  private SimSettings settings = SimSettings.of(1, "01");
  private RunOptions options = new RunOptions(false);
  private StopSignal stop = new StopSignal();
  private SimulatedBench bench;
  private boolean down;
  private Consumer<Runner> looking = runner -> {};
  private UnaryOperator<Wire> line = wire -> wire;
  private BiFunction<Records, SimulatedBench, Records> records = (log, on) -> log;

  private Optional<SupplySwitch> by = Optional.empty();

  /** Who switches the supply. */
  BenchRun switching(SupplySwitch who) {
    by = Optional.of(who);
    return this;
  }

  private BenchRun(Plan plan, Path file) {
    this.plan = plan;
    this.file = file;
  }

  static BenchRun of(Plan plan, Path folder) {
    return new BenchRun(plan, folder.resolve("bench-log.sqlite"));
  }

  BenchRun settings(UnaryOperator<SimSettings> change) {
    settings = change.apply(settings);
    return this;
  }

  BenchRun faults(String... names) {
    return settings(
        s ->
            s.withFaults(
                Arrays.stream(names).map(name -> FaultNames.parse(name, plan.card())).toList()));
  }

  BenchRun stopOnFail() {
    options = new RunOptions(true);
    return this;
  }

  BenchRun options(RunOptions all) {
    options = all;
    return this;
  }

  BenchRun stop(StopSignal signal) {
    stop = signal;
    return this;
  }

  BenchRun listener(RunListener one) {
    more.add(one);
    return this;
  }

  /** Another bench than the one that the card's behaviour gives. */
  BenchRun on(SimulatedBench other) {
    bench = other;
    return this;
  }

  /** Something between the session and the bench. */
  BenchRun through(UnaryOperator<Wire> between) {
    line = between;
    return this;
  }

  BenchRun records(BiFunction<Records, SimulatedBench, Records> around) {
    records = around;
    return this;
  }

  /** Who gets to see the runner before it runs. */
  BenchRun looking(Consumer<Runner> who) {
    looking = who;
    return this;
  }

  /** Whether no drive was on when the runner returned, or threw. */
  boolean down() {
    return down;
  }

  /** The bench that this run will be on. */
  SimulatedBench bench() {
    if (bench == null) {
      HookUp hookUp = hookUp();
      bench = new SimulatedBench(plan.card(), hookUp.lineOfDrive(), hookUp.lineOfWatch(), settings);
    }
    return bench;
  }

  Path file() {
    return file;
  }

  Outcome go() {
    Heard heard = new Heard();
    Tally tally = new Tally();
    FirstFailures failures = new FirstFailures(100);
    List<RunListener> listeners = new ArrayList<>(List.of(tally, failures, heard));
    listeners.addAll(more);
    BitSet live = new BitSet();
    bench()
        .watchDrives(
            (nowNs, on) -> {
              live.clear();
              live.or(on);
            });
    try (BenchLog log = BenchLog.open(file, SumCard.CLOCK);
        Session session =
            Session.open(
                line.apply(bench),
                hookUp(),
                SessionSettings.of(plan.card()),
                new SplittableRandom(1));
        RunWriter writer = log.begin(start())) {
      Runner runner =
          new Runner(
              session,
              plan,
              records.apply(Records.in(writer, plan.card()), bench),
              options,
              stop,
              bench::nowNs,
              listeners);
      by.ifPresent(runner::switching);
      looking.accept(runner);
      RunEnding ending;
      try {
        ending = runner.run();
      } finally {
        down = live.isEmpty();
      }
      writer.end(ending.end(), ending.why(), SumCard.NOON);
      List<VectorRecord> kept = new ArrayList<>();
      log.forEachVector(writer.runId(), kept::add);
      return new Outcome(
          ending, heard, tally, failures.failures(), kept, log.superseded(writer.runId()), down);
    }
  }

  private HookUp hookUp() {
    Card card = plan.card();
    return HookUp.of(
        card, FixtureProfile.simulatedBench(HookUp.drivesNeeded(card), HookUp.watchesNeeded(card)));
  }

  private RunStart start() {
    return new RunStart(
        UnitId.simulated(plan.card().name(), settings.unit()),
        plan.card().title(),
        "plan.yaml",
        plan.title(),
        plan.vectorCount(),
        false,
        OptionalLong.of(settings.seed()),
        new FixtureUsed("simulated bench", "1.0.0", 1, settings.samplingNs(), ""),
        "",
        List.of(),
        Map.of(),
        "{}",
        "[]",
        plan.card().lines().stream().map(BenchRun::name).toList(),
        SumCard.NOON);
  }

  private static LineName name(Line line) {
    return new LineName(
        line.index(),
        line.bus().name(),
        line.bit(),
        line.label(),
        line.pin().toString(),
        line.bus().role().driven(),
        line.bus().role().watched());
  }

  /** Keeps what listeners are told, the last word on each vector in its place. */
  static final class Heard implements RunListener {
    final List<Judged> judged = new ArrayList<>();
    final List<Judged> superseded = new ArrayList<>();

    @Override
    public void judged(Judged one) {
      judged.add(one);
    }

    @Override
    public void superseded(Judged one) {
      superseded.add(one);
      judged.set(judged.size() - 1, one);
    }
  }

  /** What came of it; {@code down} tells whether no drive was on when the runner returned. */
  record Outcome(
      RunEnding ending,
      Heard heard,
      Tally tally,
      List<Failure> failures,
      List<VectorRecord> records,
      List<Superseded> superseded,
      boolean down) {
    List<Verdict> verdicts() {
      return records.stream().map(VectorRecord::verdict).toList();
    }

    /** Listeners heard, last, what stands in the log; the tally counted the same. */
    boolean toldTheSame() {
      List<String> told =
          heard.judged.stream()
              .map(j -> j.vector().number() + " " + j.judgement().verdict() + j.judgement().why())
              .toList();
      List<String> kept =
          records.stream().map(r -> r.number() + " " + r.verdict() + r.why()).toList();
      boolean counted =
          Arrays.stream(Verdict.values())
              .allMatch(
                  v -> tally.count(v) == records.stream().filter(r -> r.verdict() == v).count());
      return told.equals(kept) && counted;
    }
  }
}
