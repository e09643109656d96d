package cardproof.run;

import cardproof.fixture.SupplySeen;
import cardproof.log.Verdict;
import java.util.Optional;
import java.util.OptionalInt;

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
    boolean off = judged.judgement().verdict() == Verdict.PASS && seen.railMv().orElse(1) == 0;
    take(judged.vector().number(), seen.lowestRailMv(), seen.highestCurrentMa(), off);
  }

  /**
   * Takes what was measured of one vector.
   *
   * @param vector number, from 0
   * @param off whether the supply was switched off, so that its rail says nothing
   */
  public void take(
      long vector, OptionalInt lowestRailMv, OptionalInt highestCurrentMa, boolean off) {
    if (!off
        && lowestRailMv.isPresent()
        && lowestRail.filter(p -> p.value <= lowestRailMv.getAsInt()).isEmpty()) {
      lowestRail = Optional.of(new Peak(lowestRailMv.getAsInt(), vector + 1));
    }
    if (highestCurrentMa.isPresent()
        && highestCurrent.filter(p -> p.value >= highestCurrentMa.getAsInt()).isEmpty()) {
      highestCurrent = Optional.of(new Peak(highestCurrentMa.getAsInt(), vector + 1));
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
