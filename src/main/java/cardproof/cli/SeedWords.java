package cardproof.cli;

import cardproof.sim.SimSettings;

/** A seed of the simulated bench, as a user gave it. */
final class SeedWords {
  private SeedWords() {}

  /** {@code 1}, or {@code 1, session 3}. */
  static String of(long seed) {
    long session = SimSettings.session(seed);
    boolean plain = session == 0 || session > Integer.MAX_VALUE;
    return plain ? Long.toString(seed) : SimSettings.relaySeed(seed) + ", session " + session;
  }
}
