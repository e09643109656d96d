package cardproof.conformance;

import cardproof.firmware.Chip;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicContainer;
import org.junit.jupiter.api.TestFactory;

/** The suite against the firmware on a simulated ATmega328P. */
class M328pConformanceTest {
  @TestFactory
  Stream<DynamicContainer> firmware() {
    return Conformance.on(new ChipPeer.Maker("328P", Chip.M328P));
  }
}
