package cardproof.cli;

import cardproof.fixture.SenseRange;
import cardproof.fixture.SupplySide;
import cardproof.sim.SimSupply;
import java.util.Optional;

/** A simulated fixture's supply, as its profile has it. */
final class SimulatedSupply {
  /** Coils and lamps that are measured are spread as real ones are. */
  private static final int TOLERANCE_PERCENT = 10;

  private static final int ANY = 65_535;

  private SimulatedSupply() {}

  static SimSupply of(SupplySide side) {
    return new SimSupply(
        side.canCut(),
        side.canSee(),
        most(side.rail()),
        resolution(side.rail()),
        most(side.current()),
        resolution(side.current()),
        side.canSee() ? TOLERANCE_PERCENT : 0);
  }

  private static int most(Optional<SenseRange> range) {
    return range.map(r -> (int) Math.min(ANY, r.most())).orElse(ANY);
  }

  private static int resolution(Optional<SenseRange> range) {
    return range.map(r -> (int) Math.max(1, r.resolution())).orElse(1);
  }
}
