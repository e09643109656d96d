package cardproof.conformance;

import cardproof.firmware.Chip;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicContainer;
import org.junit.jupiter.api.TestFactory;

/** The suite against the firmware on a simulated ATmega2560. */
class M2560ConformanceTest {
  @TestFactory
  Stream<DynamicContainer> firmware() {
    return Conformance.on(new ChipPeer.Maker("2560", Chip.M2560));
  }
}
