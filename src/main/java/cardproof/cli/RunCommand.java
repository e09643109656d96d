package cardproof.cli;

import cardproof.card.Card;
import cardproof.card.CardReview;
import cardproof.card.wiring.review.Review;
import cardproof.files.Loaded;
import cardproof.files.PlanFile;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.HookUp;
import cardproof.log.RunAsked;
import cardproof.log.RunStart;
import cardproof.plan.Plan;
import cardproof.plan.PlanCheck;
import cardproof.run.StopSignal;
import cardproof.sim.SimSettings;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Runs a plan on a fixture. */
@Command(
    name = "run",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description = "Runs a plan on a fixture and records every vector.",
    footerHeading = "%nExample:%n",
    footer = {
      "  cardproof run vectors/sum/bring-up.yaml",
      "  cardproof run vectors/sum/bring-up.yaml --unit 03 --port /dev/ttyACM0",
      "  cardproof run vectors/hold/bring-up.yaml --only '#quick' --vcd hold.vcd"
    })
final class RunCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "PLAN", description = "plan file")
  private Path planFile;

  @Mixin private FixtureOptions fixture;

  @Option(
      names = "--unit",
      paramLabel = "NAME",
      defaultValue = "01",
      description = "which copy of the card is on the bench (default: ${DEFAULT-VALUE})")
  private String unit;

  @Mixin private StepOptions steps;

  @Option(
      names = "--seed",
      paramLabel = "N",
      defaultValue = "1",
      description = "seed of the simulated bench (default: ${DEFAULT-VALUE})")
  private long seed;

  @Option(
      names = "--session",
      paramLabel = "N",
      description =
          "which time this unit is on the simulated bench: the same relays, a little warmer or colder,"
              + " and other operations")
  private Optional<Long> session = Optional.empty();

  @Mixin private FaultOptions faults;

  @Mixin private BenchOptions bench;

  @Mixin private ReconnectOptions reconnect;

  @Option(
      names = "--log",
      paramLabel = "FILE",
      description = "bench log (default: bench-log.sqlite beside the plan)")
  private Path logFile;

  @Option(names = "--note", paramLabel = "TEXT", description = "kept with the run")
  private String note = "";

  @Option(names = "--stop-on-fail", description = "end at the first vector that does not pass")
  private boolean stopOnFail;

  @Option(
      names = "--powered",
      description = "power, polarity and current limit have been checked: do not ask")
  private boolean powered;

  @Option(
      names = "--keep-supply",
      description =
          "leave the supply on at the end, where the fixture switched it on: what is in the rack may"
              + " have to keep what it holds")
  private boolean keepSupply;

  @Option(names = "--json", description = "one JSON object on standard output instead of text")
  private boolean json;

  @Option(
      names = "--resume",
      paramLabel = "RUN",
      description =
          "go on with this run, which ended early: same files, unit, steps, seed and faults, from"
              + " where what the card keeps is known")
  private Optional<Long> resume = Optional.empty();

  @Option(
      names = "--repeat",
      paramLabel = "N",
      description =
          "run the plan so many times, a run of its own in the log each time, to catch what fails now"
              + " and then; on the simulated bench in sessions of their own")
  private Optional<Integer> repeat = Optional.empty();

  @Override
  public Integer call() {
    Screen screen = Screen.of(spec.commandLine());
    checkRepeat();
    session.ifPresent(this::inSession);
    UnitName.checked(unit);
    Optional<Earlier> before =
        resume.map(run -> Earlier.read(BenchLogs.beside(planFile, logFile), run));
    before.ifPresent(this::asRecorded);
    Loaded<Plan> loaded = PlanFile.read(planFile);
    Plan plan = loaded.value();
    Card card = plan.card();
    Loaded<FixtureProfile> profile = fixture.profile(card);
    HookUp hookUp = HookUp.of(card, profile.value());
    FaultOptions.Planted planted = faults.read(card, profile.value());
    Optional<WaveRequest> wave = bench.wave(card, profile.value());
    Optional<WaveRequest> capture = bench.capture();
    plan = steps.of(plan);
    loaded.warnings().forEach(warning -> screen.err().println("warning: " + warning));
    profile.warnings().forEach(warning -> screen.err().println("warning: " + warning));
    PlanChecking.fit(card, profile.value())
        .forEach(warning -> screen.err().println("warning: " + warning));
    PlanCheck check = PlanChecking.check(plan, hookUp, review(card, profile.value()), screen);
    check.warnings().forEach(warning -> screen.err().println("warning: " + warning));
    List<Path> sources = new ArrayList<>(loaded.sources());
    sources.addAll(profile.sources());
    Plan chosen = plan;
    before.ifPresent(earlier -> earlier.checkFiles(RunStarts.hashes(sources)));
    Optional<Earlier> earlier = before.map(run -> run.from(chosen));
    StopSignal stop = new StopSignal();
    RunSetup setup =
        new RunSetup(
            plan,
            steps.partial(),
            planFile,
            check,
            hookUp,
            profile.value(),
            profile.value().simulated() ? "" : fixture.port(profile.value()),
            unit,
            seed,
            planted.card(),
            planted.line(),
            BenchLogs.beside(planFile, logFile),
            sources,
            note,
            stopOnFail,
            powered,
            bench.realTime(),
            keepSupply,
            reconnect.wish(),
            wave,
            capture,
            new RunAsked(steps.only(), steps.skip(), earlier.map(Earlier::continues)),
            earlier);
    return repeat.isPresent()
        ? new RepeatedRun(setup, screen, stop, repeat.get()).run(json)
        : new PlanRun(setup, screen, stop).run(json);
  }

  private void inSession(long number) {
    if (number < 0 || number > Integer.MAX_VALUE || seed != SimSettings.relaySeed(seed)) {
      throw new ParameterException(
          spec.commandLine(), "--session needs a number from 0 on, and --seed one below 2^32");
    }
    seed = SimSettings.seed(seed, number);
  }

  private void checkRepeat() {
    if (repeat.filter(times -> times < 2).isPresent()) {
      throw new ParameterException(spec.commandLine(), "--repeat needs a number from 2 on");
    }
    for (String option : new String[] {"--resume", "--vcd", "--capture"}) {
      if (repeat.isPresent() && given(option)) {
        throw new ParameterException(
            spec.commandLine(), "--repeat makes several runs, and " + option + " is for one");
      }
    }
  }

  /** What was not given is as it was when the run was begun; what was given must be the same. */
  private void asRecorded(Earlier earlier) {
    RunStart start = earlier.start();
    if (given("--unit")) {
      earlier.same("--unit", unit, start.unit().unit());
    }
    unit = start.unit().unit();
    if (start.seed().isPresent()) {
      if (given("--seed")) {
        earlier.same("--seed", seed, start.seed().getAsLong());
      }
      seed = start.seed().getAsLong();
    }
    if (given("--only")) {
      earlier.same("--only", steps.only(), earlier.asked().only());
    }
    if (given("--skip")) {
      earlier.same("--skip", steps.skip(), earlier.asked().skip());
    }
    steps.asRecorded(earlier.asked());
    if (given("--fault")) {
      earlier.same("--fault", Set.copyOf(faults.names()), Set.copyOf(start.faults()));
    }
    faults.asRecorded(start.faults());
  }

  private boolean given(String option) {
    return spec.commandLine().getParseResult().hasMatchedOption(option);
  }

  /** Only where the fixture's limits ask for it, since it takes its time on a large card. */
  private static Optional<Review> review(Card card, FixtureProfile profile) {
    return profile.driveMilliamps() > 0 || profile.drive().groupMilliamps() > 0
        ? CardReview.of(card, profile.driveMilliamps())
        : Optional.empty();
  }
}
