package cardproof.cli;

import cardproof.card.Card;
import cardproof.files.Loaded;
import cardproof.files.PlanFile;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.HookUp;
import cardproof.log.RunAsked;
import cardproof.log.RunEnd;
import cardproof.plan.Plan;
import cardproof.plan.PlanCheck;
import cardproof.run.StopSignal;
import cardproof.sim.SimSettings;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;

/** Runs plans one after the other for a measurement, with the power switched off and on between. */
final class PaceRuns {
  private final PaceOptions options;
  private final Screen screen;
  private final StopSignal stop;
  private final Supplier<Optional<Answers>> answers;
  private PlanRun last;
  private long runs;
  private int exit = ExitCode.PASSED;

  PaceRuns(
      PaceOptions options, Screen screen, StopSignal stop, Supplier<Optional<Answers>> answers) {
    this.options = options;
    this.screen = screen;
    this.stop = stop;
    this.answers = answers;
  }

  /** Exit code of the worst run so far. */
  int exit() {
    return exit;
  }

  /** Whether the power can be switched between runs: by the bench, the fixture or somebody. */
  boolean canSwitchPower(FixtureProfile profile) {
    return profile.simulated() || profile.supply().canCut() || answers.get().isPresent();
  }

  /**
   * Runs a plan so many times, a run of its own each; fewer when one does not come to its end.
   *
   * @param apart whether the power is switched off and on before each but the first
   * @return ids of the runs, those that came to their end; empty where nobody let them begin
   */
  List<Long> run(Path planFile, int times, String what, boolean apart) {
    List<Long> runs = new ArrayList<>();
    for (int i = 0; i < times && stop.reason().isEmpty(); i++) {
      RunSetup setup = setup(planFile);
      boolean byHand = apart && i > 0 && powerCycled(setup.profile());
      if (stop.reason().isPresent()) {
        break;
      }
      PlanRun run = last == null ? new PlanRun(setup, screen, stop) : last.again(setup);
      if (last == null && !run.ready()) {
        exit = ExitCode.STOPPED;
        return runs;
      }
      last = byHand ? run.afterPowerByHand() : run;
      RunResult result = last.recordedToItsEnd();
      exit = Math.max(exit, last.exitCode(result));
      tell(what + " " + (i + 1) + " of " + times, result);
      if (result.ending().end() != RunEnd.FINISHED) {
        result.ending().problem().ifPresent(screen.err()::println);
        exit = last.exitCode(result);
        break;
      }
      runs.add(result.runId());
    }
    if (stop.reason().isPresent()) {
      exit = ExitCode.STOPPED;
    }
    return runs;
  }

  private void tell(String what, RunResult result) {
    screen
        .err()
        .printf(
            "%s: run %d, %s, %s%n",
            what,
            result.runId(),
            Plural.of(result.planned(), "vector"),
            result.passed() ? "passed" : result.tally().failed() + " did not pass");
  }

  /** True where somebody did it; the fixture and the simulated bench do so on their own. */
  private boolean powerCycled(FixtureProfile profile) {
    if (profile.simulated() || profile.supply().canCut()) {
      return false;
    }
    String answer =
        answers
            .get()
            .flatMap(
                who ->
                    who.ask(
                        "Switch the card's supply OFF, wait until every relay has dropped, switch it"
                            + " ON again, then press Enter ('stop' ends the measurement): "))
            .orElse("stop");
    if (answer.strip().equalsIgnoreCase("stop")) {
      stop.request("at the question about the supply");
    }
    return true;
  }

  private RunSetup setup(Path planFile) {
    Loaded<Plan> loaded = PlanFile.read(planFile);
    Plan plan = loaded.value();
    Card card = plan.card();
    Loaded<FixtureProfile> profile = options.fixture.profile(card);
    HookUp hookUp = HookUp.of(card, profile.value());
    FaultOptions.Planted planted = options.faults.read(card, profile.value());
    PlanChecking.fit(card, profile.value());
    PlanCheck check = PlanChecking.check(plan, hookUp, Optional.empty(), screen);
    List<Path> sources = new ArrayList<>(loaded.sources());
    sources.addAll(profile.sources());
    return new RunSetup(
        plan,
        false,
        planFile,
        check,
        hookUp,
        profile.value(),
        profile.value().simulated() ? "" : options.fixture.port(profile.value()),
        options.unit,
        SimSettings.seed(options.seed, SimSettings.session(options.seed) + runs++),
        planted.card(),
        planted.line(),
        options.logFile(),
        sources,
        "",
        false,
        options.powered,
        false,
        false,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        RunAsked.wholePlan(),
        Optional.empty());
  }

  /** What is said where the power cannot be switched between runs. */
  static RefusedException nobodySwitches() {
    return new RefusedException(
        new Problem(
            "pace --measure",
            "the fixture cannot switch the card's supply, and there is no terminal to ask at",
            "somebody who switches it off and on between runs",
            "Run it at a terminal, or take --cycles 1, which speaks of that one power-on alone"));
  }
}
