package cardproof.sim;

import cardproof.link.Sense;
import cardproof.link.StepSense;

/** Rail and current as this fixture measures them: in its ranges, no finer than it can tell. */
final class SupplySense {
  private final SimSupply supply;
  private final SupplyMeter meter;
  private final Runnable bringUp;

  /**
   * @param bringUp lets the card come up to now
   */
  SupplySense(SimSupply supply, SupplyMeter meter, Runnable bringUp) {
    this.supply = supply;
    this.meter = meter;
    this.bringUp = bringUp;
  }

  /** A step starts. */
  void restart() {
    bringUp.run();
    meter.restart();
  }

  StepSense ofStep() {
    bringUp.run();
    return new StepSense(
        supply.railMv(meter.millivolts()),
        supply.railMv(meter.lowestMillivolts()),
        supply.currentMa(meter.microamps()),
        supply.currentMa(meter.highestMicroamps()));
  }

  Sense now() {
    bringUp.run();
    return new Sense(supply.railMv(meter.millivolts()), supply.currentMa(meter.microamps()));
  }
}
