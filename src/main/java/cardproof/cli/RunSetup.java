package cardproof.cli;

import cardproof.card.fault.Fault;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.HookUp;
import cardproof.log.RunAsked;
import cardproof.plan.Plan;
import cardproof.plan.PlanCheck;
import cardproof.run.RunOptions;
import cardproof.sim.SimSettings;
import cardproof.sim.line.LineFault;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * A run as asked for, read and checked; nothing has been opened or driven yet.
 *
 * @param port empty on the simulated bench
 * @param partial whether only some of the plan's steps were asked for
 * @param sources every file that was read for it
 * @param realTime whether the simulated card takes as long as its relays would
 * @param keepSupply whether a supply that the fixture switched on stays on after the run
 * @param reconnect whether to go on when the board was gone and is back
 * @param wave what to show of every edge on the simulated card
 * @param capture where every edge goes that the fixture sees
 * @param asked which steps, and which run it continues
 * @param earlier what is known from the run that it continues
 */
record RunSetup(
    Plan plan,
    boolean partial,
    Path planFile,
    PlanCheck check,
    HookUp hookUp,
    FixtureProfile profile,
    String port,
    String unit,
    long seed,
    List<Fault> faults,
    List<LineFault> lineFaults,
    Path logFile,
    List<Path> sources,
    String note,
    boolean stopOnFail,
    boolean powered,
    boolean realTime,
    boolean keepSupply,
    Optional<ReconnectOptions.Wish> reconnect,
    Optional<WaveRequest> wave,
    Optional<WaveRequest> capture,
    RunAsked asked,
    Optional<Earlier> earlier) {
  /** The same once more; on the simulated bench another time of the same copy. */
  RunSetup again(int time) {
    return with(
        port, SimSettings.seed(seed, SimSettings.session(seed) + time), asked, earlier, capture);
  }

  /** The same as the continuation of a run. */
  RunSetup continuing(String at, RunAsked asking, Earlier before) {
    // what was captured up to now stands in its file
    return with(at, seed, asking, Optional.of(before), Optional.empty());
  }

  private RunSetup with(
      String at,
      long drawing,
      RunAsked asking,
      Optional<Earlier> before,
      Optional<WaveRequest> capturing) {
    return new RunSetup(
        plan,
        partial,
        planFile,
        check,
        hookUp,
        profile,
        at,
        unit,
        drawing,
        faults,
        lineFaults,
        logFile,
        sources,
        note,
        stopOnFail,
        powered,
        realTime,
        keepSupply,
        reconnect,
        wave,
        capturing,
        asking,
        before);
  }

  /** Number of the first vector to apply. */
  long from() {
    return earlier.map(Earlier::from).orElse(0L);
  }

  /** What to do at the first vector, and where that is. */
  RunOptions options() {
    boolean poweredAnew = onBench() && from() == 0;
    return new RunOptions(
        stopOnFail,
        from(),
        earlier.isPresent() && plan.card().hasState() && !poweredAnew,
        capture.isPresent());
  }

  /** All that is wrong with card and line, as it was written. */
  List<String> faultNames() {
    return Stream.concat(faults.stream().map(Fault::name), lineFaults.stream().map(LineFault::name))
        .toList();
  }

  /** On the simulated bench, inside this program. */
  boolean onBench() {
    return profile.simulated();
  }
}
