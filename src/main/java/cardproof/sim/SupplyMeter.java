package cardproof.sim;

/** What stands at the supply pins of a card that is simulated as one of currents. */
interface SupplyMeter {
  long millivolts();

  long microamps();

  /** From now on lowest and highest are looked for anew. */
  void restart();

  long lowestMillivolts();

  long highestMicroamps();
}
