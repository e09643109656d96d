package cardproof.run;

import cardproof.fixture.SupplySeen;
import java.util.Optional;

/** The lowest rail and the highest current of a run, and where they were. One thread. */
public final class SupplyTally implements RunListener {
  /**
   * The most of something.
   *
   * @param value millivolts or milliamps
   * @param vector number, from 1
   */
  public record Peak(int value, long vector) {}

  private Optional<Peak> lowestRail = Optional.empty();
  private Optional<Peak> highestCurrent = Optional.empty();

  @Override
  public void judged(Judged judged) {
    SupplySeen seen = judged.observation().supply();
    long vector = judged.vector().number() + 1;
    boolean powered = judged.vector().step().power().map(power -> power.on()).orElse(true);
    if (powered
        && seen.lowestRailMv().isPresent()
        && lowestRail.filter(p -> p.value <= seen.lowestRailMv().getAsInt()).isEmpty()) {
      lowestRail = Optional.of(new Peak(seen.lowestRailMv().getAsInt(), vector));
    }
    if (seen.highestCurrentMa().isPresent()
        && highestCurrent.filter(p -> p.value >= seen.highestCurrentMa().getAsInt()).isEmpty()) {
      highestCurrent = Optional.of(new Peak(seen.highestCurrentMa().getAsInt(), vector));
    }
  }

  @Override
  public void superseded(Judged judged) {
    // what was measured stays what it was
  }

  /** Empty where it is not measured. */
  public Optional<Peak> lowestRail() {
    return lowestRail;
  }

  /** Empty where it is not measured. */
  public Optional<Peak> highestCurrent() {
    return highestCurrent;
  }
}
