package cardproof.cli;

import cardproof.card.Card;
import cardproof.files.PlanFile;
import cardproof.log.BenchLog;
import cardproof.log.RunDetail;
import cardproof.log.RunFilter;
import cardproof.log.RunSummary;
import cardproof.log.UnitId;
import cardproof.log.Verdict;
import cardproof.plan.Plan;
import cardproof.run.StopSignal;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import cardproof.timing.RunSettles;
import cardproof.timing.pace.PaceReading;
import cardproof.timing.pace.PacedTransition;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The clock that settle times allow, measured and proved. */
@Command(
    name = "pace",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description = {
      "Says which clock the settle times of a unit allow.",
      "Alone it reads the log. With --measure it runs the plan three times, takes the slowest"
          + " transitions, and repeats them over several power cycles; with --prove it samples them at a"
          + " dwell, again and again. Both write a plan of those transitions beside the plan, and every"
          + " vector into the log."
    },
    footerHeading = "%nExample:%n",
    footer = {
      "  cardproof pace vectors/sum/bring-up.yaml --measure --unit 03",
      "  cardproof pace vectors/sum/bring-up.yaml --unit 03 --receiver 40ms",
      "  cardproof pace vectors/sum/bring-up.yaml --prove 275ms --unit 03"
    })
final class PaceCommand implements Callable<Integer> {
  private static final int SCREENED = 3;
  private static final int SLOWEST = 10;

  @Spec private CommandSpec spec;
  @Mixin private PaceOptions options;
  @ArgGroup private What what = new What();

  private static final class What {
    @Option(names = "--measure", description = "measure: three runs, then the slowest transitions")
    private boolean measure;

    @Option(
        names = "--prove",
        paramLabel = "TIME",
        converter = TimeOption.class,
        description = "sample the slowest transitions at this dwell, such as 275ms")
    private Optional<TimeOption.Us> prove = Optional.empty();
  }

  @Option(
      names = "--cycles",
      paramLabel = "N",
      defaultValue = "5",
      description = "power cycles to measure over (default: ${DEFAULT-VALUE})")
  private int cycles;

  @Option(
      names = "--share",
      paramLabel = "PERCENT",
      defaultValue = "95",
      description =
          "share of a run's settles that its longest is to be above: 95 takes 59 repeats, 99 takes 299,"
              + " 99.9 takes 2995 (default: ${DEFAULT-VALUE})")
  private double sharePercent;

  @Option(
      names = "--guard",
      paramLabel = "PERCENT",
      defaultValue = "10",
      description = "added for a hot coil and a low supply, a guess (default: ${DEFAULT-VALUE})")
  private double guardPercent;

  @Option(
      names = "--receiver",
      paramLabel = "TIME",
      converter = TimeOption.class,
      description = "what the receiving card needs: its set-up and hold time")
  private Optional<TimeOption.Us> receiver = Optional.empty();

  @Option(
      names = "--times",
      paramLabel = "N",
      defaultValue = "299",
      description =
          "with --prove: how often each transition is sampled; 299 without failure say at most 1 %"
              + " (default: ${DEFAULT-VALUE})")
  private int times;

  @Option(
      names = "--transitions",
      paramLabel = "N",
      description = "how many of the slowest transitions (default: 10, with --prove 3)")
  private Optional<Integer> transitions = Optional.empty();

  @Option(names = "--json", description = "one JSON object on standard output instead of text")
  private boolean json;

  private final Supplier<Optional<Answers>> answers;

  PaceCommand() {
    this(Answers::atTerminal);
  }

  PaceCommand(Supplier<Optional<Answers>> answers) {
    this.answers = answers;
  }

  @Override
  public Integer call() {
    check("--cycles", cycles >= 1, "a number from 1 on");
    check("--share", sharePercent >= 50 && sharePercent <= 99.9, "a percentage from 50 to 99.9");
    check("--guard", guardPercent >= 0 && guardPercent <= 500, "a percentage from 0 to 500");
    check("--times", times >= 1, "a number from 1 on");
    check("--transitions", transitions.orElse(1) >= 1, "a number from 1 on");
    UnitName.checked(options.unit);
    Screen screen = Screen.of(spec.commandLine());
    Plan plan = PlanFile.read(options.planFile).value();
    if (what.measure) {
      return measure(plan, screen);
    }
    if (what.prove.isPresent()) {
      return prove(plan, what.prove.get().value(), screen);
    }
    try (BenchLog log = BenchLog.openForReading(options.logFile())) {
      tell(log, findings(log, known(log, plan, false), Optional.empty()), screen);
    }
    return ExitCode.PASSED;
  }

  private void check(String option, boolean good, String wanted) {
    if (!good) {
      throw new ParameterException(spec.commandLine(), option + " needs " + wanted);
    }
  }

  private int measure(Plan plan, Screen screen) {
    StopSignal stop = new StopSignal();
    PaceRuns runs = new PaceRuns(options, screen, stop, answers);
    if (cycles > 1 && !runs.canSwitchPower(options.fixture.profile(plan.card()).value())) {
      throw PaceRuns.nobodySwitches();
    }
    List<Long> screened = runs.run(options.planFile, SCREENED, "screening", false);
    if (screened.size() < SCREENED) {
      return runs.exit();
    }
    int repeats = PaceReading.repeatsFor(sharePercent / 100);
    Set<Long> chosen = write(plan, screened, transitions.orElse(SLOWEST), repeats, 0, screen);
    List<Long> measured = runs.run(pacePlan(), cycles, "power cycle", true);
    if (measured.isEmpty()) {
      return runs.exit();
    }
    try (BenchLog log = BenchLog.openForReading(options.logFile())) {
      tell(log, findings(log, measured, Optional.of(chosen)), screen);
    }
    return runs.exit();
  }

  private int prove(Plan plan, long dwellUs, Screen screen) {
    List<Long> from;
    try (BenchLog log = BenchLog.openForReading(options.logFile())) {
      from = known(log, plan, plan.card().hasState());
    }
    StopSignal stop = new StopSignal();
    PaceRuns runs = new PaceRuns(options, screen, stop, answers);
    Set<Long> chosen = write(plan, from, transitions.orElse(3), times, dwellUs, screen);
    List<Long> proved = runs.run(pacePlan(), 1, "proof", false);
    if (proved.isEmpty()) {
      return runs.exit();
    }
    try (BenchLog log = BenchLog.openForReading(options.logFile())) {
      return PaceProof.of(log, proved.get(0), chosen.size()).tell(dwellUs, json, screen);
    }
  }

  private Path pacePlan() {
    return options.planFile.toAbsolutePath().getParent().resolve("pace-" + options.unit + ".yaml");
  }

  /** Writes the plan of the slowest transitions of some runs, and gives their names. */
  private Set<Long> write(
      Plan plan, List<Long> runs, int most, int repeats, long dwellUs, Screen screen) {
    try (BenchLog log = BenchLog.openForReading(options.logFile())) {
      List<Long> sound = sound(log, runs, new ArrayList<>());
      List<PacedTransition> slowest =
          PaceReading.of(log, sound).stream()
              .filter(each -> each.vector() > 0)
              .limit(most)
              .toList();
      if (slowest.isEmpty()) {
        throw nothingMoved();
      }
      new PacePlan(plan.card(), log, plan.card().hasState() ? plan::resumeAt : v -> v)
          .write(pacePlan(), options.unit, slowest, repeats, dwellUs);
      screen.err().println(PacePlan.words(pacePlan(), slowest.size(), repeats, dwellUs));
      return slowest.stream().map(PacedTransition::transition).collect(Collectors.toSet());
    }
  }

  /** Runs of the unit since its last rework. */
  private List<Long> known(BenchLog log, Plan plan, boolean ofThisPlan) {
    List<UnitId> units =
        List.of(
            UnitId.real(plan.card().name(), options.unit),
            UnitId.simulated(plan.card().name(), options.unit));
    boolean simulated =
        options.fixture.profile(plan.card()).value().simulated()
            && log.runs(RunFilter.of(units.get(0)).limit(1)).isEmpty();
    UnitId unit = units.get(simulated ? 1 : 0);
    List<RunSummary> runs = log.runs(RunFilter.of(unit));
    List<Long> known =
        runs.stream()
            .filter(run -> log.reworks(unit).stream().noneMatch(r -> r.at().isAfter(run.started())))
            .filter(run -> !ofThisPlan || run.plan().equals(options.planFile.toString()))
            .filter(run -> run.vectors() > run.counts().get(Verdict.UNTESTED))
            .map(RunSummary::id)
            .toList();
    if (known.isEmpty()) {
      throw new RefusedException(
          new Problem(
              options.logFile().toString(),
              "there is no run of " + unit + (runs.isEmpty() ? "" : " since its last rework"),
              "runs to take settle times from",
              "Measure: cardproof pace " + options.planFile + " --measure --unit " + options.unit));
    }
    return known;
  }

  private static List<Long> sound(BenchLog log, List<Long> runs, List<Long> leftOut) {
    List<Long> sound = new ArrayList<>();
    runs.forEach(run -> (RunSettles.isVoid(log, run) ? leftOut : sound).add(run));
    return sound;
  }

  private PaceFindings findings(BenchLog log, List<Long> runs, Optional<Set<Long>> chosen) {
    List<Long> leftOut = new ArrayList<>();
    List<Long> sound = sound(log, runs, leftOut);
    List<PacedTransition> all = PaceReading.of(log, sound);
    List<PacedTransition> slowest =
        all.stream()
            .filter(each -> chosen.isEmpty() || chosen.get().contains(each.transition()))
            .limit(transitions.orElse(SLOWEST))
            .toList();
    if (slowest.isEmpty()) {
      throw nothingMoved();
    }
    RunDetail newest = log.run(sound.stream().max(Long::compare).orElseThrow()).orElseThrow();
    int powerCycles = 0;
    for (long run : new HashSet<>(sound)) {
      powerCycles += (int) log.powerOns(run).stream().filter(p -> p.how().isNewPower()).count();
    }
    return new PaceFindings(
        newest.summary().unit().toString(),
        sound,
        leftOut,
        slowest,
        chosen.map(Set::size).orElse(slowest.size()) - slowest.size(),
        all.size(),
        sharePercent / 100,
        PaceReading.repeatsFor(sharePercent / 100),
        powerCycles,
        path(log, slowest.get(0)),
        guardPercent,
        receiver.map(TimeOption.Us::value).orElse(0L),
        newest.start().fixture());
  }

  private List<String> path(BenchLog log, PacedTransition slowest) {
    Card card = PlanFile.read(options.planFile).value().card();
    return log.vector(slowest.run(), slowest.vector() - 1)
        .map(
            before ->
                RelayPath.of(
                    card,
                    log.lines(slowest.run()),
                    before,
                    log.vector(slowest.run(), slowest.vector()).orElseThrow()))
        .orElse(List.of());
  }

  private RefusedException nothingMoved() {
    return new RefusedException(
        new Problem(
            options.planFile.toString(),
            "no line of the card moved in a transition that counts",
            "a plan with plain vectors in which outputs change, and runs that are not void",
            "Timed sequences and sweeps say nothing of the card's own settle times"));
  }

  private void tell(BenchLog log, PaceFindings found, Screen screen) {
    if (json) {
      PaceJson.print(found, log, screen.out());
    } else {
      new PacePage(found, log, screen)
          .print("cardproof pace " + options.planFile + " --measure --unit " + options.unit);
    }
    screen.out().flush();
  }
}
