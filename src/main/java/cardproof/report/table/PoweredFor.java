package cardproof.report.table;

import cardproof.log.PowerOn;
import cardproof.log.VectorRecord;
import java.util.List;

/** How long a card had been powered when a vector began; asked for vectors in order. */
final class PoweredFor {
  private final List<PowerOn> powerOns;
  private int passed = -1;
  private long sinceUs;

  PoweredFor(List<PowerOn> powerOns) {
    this.powerOns = powerOns;
  }

  /** Microseconds since the first vector after the supply came on; null where nobody knows. */
  Long us(VectorRecord vector) {
    while (passed + 1 < powerOns.size() && powerOns.get(passed + 1).vector() <= vector.number()) {
      passed++;
      sinceUs = vector.startUs();
    }
    return passed < 0 ? null : vector.startUs() - sinceUs;
  }

  /** Whether it had been on for longer than that, since nobody saw it come on. */
  boolean atLeast() {
    return passed >= 0 && !powerOns.get(passed).how().isNewPower();
  }
}
