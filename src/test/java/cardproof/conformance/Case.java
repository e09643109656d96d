package cardproof.conformance;

import java.util.Locale;
import org.junit.jupiter.api.Assumptions;

/**
 * One case, the same on every peer.
 *
 * @param section of the page, as the table groups them
 */
record Case(String section, String name, CardOf card, Body body) {
  /** The card of a case, for so many channels. */
  interface CardOf {
    CardScript of(int drives, int watches);
  }

  /** What it does. */
  interface Body {
    void run(Bench bench);
  }

  /** Leaves the case out, saying why. */
  static void needs(boolean there, String what) {
    Assumptions.assumeTrue(there, "the fixture has no " + what);
  }

  static void needs(Bench bench, Capability capability) {
    needs(
        bench.shape().can(capability), "capability " + capability.name().toLowerCase(Locale.ROOT));
  }

  static void needs(Bench bench, Peer.Offer offer) {
    Assumptions.assumeTrue(
        bench.peer().offers().contains(offer), "the peer does not offer " + offer);
  }
}
