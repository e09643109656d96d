package cardproof.cli;

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
import cardproof.timing.pace.RunRepeats;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Collectors;

/** Measures a pace, proves one, or reads what the log says of it. */
final class PaceWork {
  private static final int SCREENED = 3;
  private static final int SLOWEST = 10;
  private static final int PROVED = 3;

  private final PaceOptions options;
  private final PaceWishes wishes;
  private final Screen screen;
  private final Supplier<Optional<Answers>> answers;
  private final Plan plan;

  PaceWork(
      PaceOptions options, PaceWishes wishes, Screen screen, Supplier<Optional<Answers>> answers) {
    this.options = options;
    this.wishes = wishes;
    this.screen = screen;
    this.answers = answers;
    this.plan = PlanFile.read(options.planFile).value();
  }

  /** Says what the log allows; returns the exit code, as the others do. */
  int read() {
    try (BenchLog log = BenchLog.openForReading(options.logFile())) {
      tell(log, findings(log, known(log, false), Optional.empty(), 0));
    }
    return ExitCode.PASSED;
  }

  /** Screens, repeats the slowest over power cycles, and says what came of it. */
  int measure() {
    StopSignal stop = new StopSignal();
    PaceRuns runs = new PaceRuns(options, screen, stop, answers);
    if (wishes.cycles() > 1 && !runs.canSwitchPower(options.fixture.profile(plan.card()).value())) {
      throw PaceRuns.nobodySwitches();
    }
    List<Long> screened = runs.run(options.planFile, SCREENED, "screening", false);
    if (screened.size() < SCREENED) {
      return runs.exit();
    }
    int repeats = PaceReading.repeatsFor(wishes.share());
    Set<Long> chosen = write(screened, wishes.transitions().orElse(SLOWEST), repeats, 0);
    List<Long> measured = runs.run(made("pace"), wishes.cycles(), "power cycle", true);
    if (measured.isEmpty()) {
      return runs.exit();
    }
    try (BenchLog log = BenchLog.openForReading(options.logFile())) {
      tell(log, findings(log, measured, Optional.of(chosen), longest(log, screened)));
    }
    return runs.exit();
  }

  /** Samples the slowest transitions at a dwell. */
  int prove(long dwellUs) {
    List<Long> from;
    try (BenchLog log = BenchLog.openForReading(options.logFile())) {
      from = known(log, plan.card().hasState());
    }
    StopSignal stop = new StopSignal();
    PaceRuns runs = new PaceRuns(options, screen, stop, answers);
    Set<Long> chosen = write(from, wishes.transitions().orElse(PROVED), wishes.times(), dwellUs);
    List<Long> proved = runs.run(made("proof"), 1, "proof", false);
    if (proved.isEmpty()) {
      return runs.exit();
    }
    try (BenchLog log = BenchLog.openForReading(options.logFile())) {
      return PaceProof.of(log, proved.get(0), chosen).tell(dwellUs, wishes.json(), screen);
    }
  }

  /** A proof has a file of its own: the other one may be run again for months. */
  private Path made(String kind) {
    return options
        .planFile
        .toAbsolutePath()
        .getParent()
        .resolve(kind + "-" + options.unit + ".yaml");
  }

  /** Writes the plan of the slowest transitions of some runs, and gives their names. */
  private Set<Long> write(List<Long> runs, int most, int repeats, long dwellUs) {
    Path file = made(dwellUs == 0 ? "pace" : "proof");
    try (BenchLog log = BenchLog.openForReading(options.logFile())) {
      List<Long> sound = sound(log, runs, new ArrayList<>());
      List<PacedTransition> slowest =
          PaceReading.of(log, sound).stream()
              .filter(each -> log.vector(each.run(), each.vector() - 1).isPresent())
              .limit(most)
              .toList();
      if (slowest.isEmpty()) {
        throw nothingMoved();
      }
      new PacePlan(plan.card(), log, plan.card().hasState() ? plan::resumeAt : v -> v)
          .write(file, options.unit, slowest, repeats, dwellUs);
      screen.err().println(PacePlan.words(file, slowest.size(), repeats, dwellUs));
      return slowest.stream().map(PacedTransition::transition).collect(Collectors.toSet());
    }
  }

  /** Runs of the unit since its last rework. */
  private List<Long> known(BenchLog log, boolean ofThisPlan) {
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
            .filter(run -> !ofThisPlan || isWhole(log, run))
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

  /** Of this very plan, with the numbers that its vectors have in it. */
  private boolean isWhole(BenchLog log, RunSummary run) {
    String planHash = RunStarts.hashes(List.of(options.planFile)).values().iterator().next();
    return log.run(run.id()).orElseThrow().start().fileHashes().containsValue(planHash)
        && !run.partial()
        && run.continues().isEmpty();
  }

  private static List<Long> sound(BenchLog log, List<Long> runs, List<Long> leftOut) {
    List<Long> sound = new ArrayList<>();
    runs.forEach(run -> (RunSettles.isVoid(log, run) ? leftOut : sound).add(run));
    return sound;
  }

  /** The longest settle of runs, microseconds: no clock may be faster than what was seen once. */
  private static double longest(BenchLog log, List<Long> runs) {
    return PaceReading.of(log, sound(log, runs, new ArrayList<>())).stream()
        .mapToDouble(PacedTransition::largestUs)
        .max()
        .orElse(0);
  }

  private PaceFindings findings(
      BenchLog log, List<Long> runs, Optional<Set<Long>> chosen, double screenedUs) {
    List<Long> leftOut = new ArrayList<>();
    List<Long> sound = sound(log, runs, leftOut);
    List<PacedTransition> all = PaceReading.of(log, sound);
    List<PacedTransition> slowest =
        all.stream()
            .filter(each -> chosen.isEmpty() || chosen.get().contains(each.transition()))
            .limit(wishes.transitions().orElse(SLOWEST))
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
        screenedUs,
        chosen.map(Set::size).orElse(slowest.size()) - slowest.size(),
        all.size(),
        wishes.share(),
        PaceReading.repeatsFor(wishes.share()),
        powerCycles,
        PaceConditions.of(
            log, slowest.get(0).runs().stream().map(RunRepeats::run).distinct().toList()),
        path(log, slowest.get(0)),
        wishes.guardPercent(),
        wishes.receiverUs(),
        newest.start().fixture());
  }

  private List<String> path(BenchLog log, PacedTransition slowest) {
    return log.vector(slowest.run(), slowest.vector() - 1)
        .map(
            before ->
                RelayPath.of(
                    plan.card(),
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

  private void tell(BenchLog log, PaceFindings found) {
    if (wishes.json()) {
      PaceJson.print(found, log, screen.out());
    } else {
      new PacePage(found, log, screen)
          .print("cardproof pace " + options.planFile + " --measure --unit " + options.unit);
    }
    screen.out().flush();
  }
}
