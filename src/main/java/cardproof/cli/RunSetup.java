package cardproof.cli;

import cardproof.card.fault.Fault;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.HookUp;
import cardproof.plan.Plan;
import cardproof.plan.PlanCheck;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/**
 * A run as asked for, read and checked; nothing has been opened or driven yet.
 *
 * @param port empty on the simulated bench
 * @param partial whether only some of the plan's steps were asked for
 * @param sources every file that was read for it
 * @param realTime whether the simulated card takes as long as its relays would
 * @param wave what to show of every edge on the simulated card
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
    Path logFile,
    List<Path> sources,
    String note,
    boolean stopOnFail,
    boolean powered,
    boolean realTime,
    Optional<WaveRequest> wave) {
  /** On the simulated bench, inside this program. */
  boolean onBench() {
    return profile.simulated();
  }
}
