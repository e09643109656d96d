package cardproof.cli;

import cardproof.card.fault.Fault;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.Plug;
import cardproof.sim.line.LineFault;
import java.util.List;

/**
 * A self-test as asked for, read and checked; nothing has been opened or driven yet.
 *
 * @param port empty on the simulated bench
 * @param plugs to be put on, one after the other
 * @param faultNames as they were given
 */
record SelftestSetup(
    FixtureProfile profile,
    String port,
    List<Plug> plugs,
    long seed,
    List<Fault> faults,
    List<LineFault> lineFaults,
    List<String> faultNames,
    boolean powered) {
  /** On the simulated bench, inside this program. */
  boolean onBench() {
    return profile.simulated();
  }
}
