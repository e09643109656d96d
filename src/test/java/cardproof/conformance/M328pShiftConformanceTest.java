package cardproof.conformance;

import cardproof.firmware.Chip;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicContainer;
import org.junit.jupiter.api.TestFactory;

/** The suite against the firmware on a simulated ATmega328P with simulated shift registers. */
class M328pShiftConformanceTest {
  @TestFactory
  Stream<DynamicContainer> firmware() {
    return Conformance.on(new ChipPeer.Maker("328P shift", Chip.M328P_SHIFT));
  }
}
