package cardproof.conformance;

import cardproof.sim.SimSettings;
import cardproof.sim.SimSupply;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicContainer;
import org.junit.jupiter.api.TestFactory;

/** The suite against the simulated fixture. */
class JavaFixtureConformanceTest {
  @TestFactory
  Stream<DynamicContainer> usual() {
    return on("Java", 8, 8, SimSettings.of(1, "01").withSlots(4));
  }

  @TestFactory
  Stream<DynamicContainer> wide() {
    return on("Java wide", 19, 35, SimSettings.of(2, "02").withSlots(2));
  }

  @TestFactory
  Stream<DynamicContainer> older() {
    return on("Java 1.0", 8, 8, SimSettings.of(3, "03").withProtocolMinor(0));
  }

  @TestFactory
  Stream<DynamicContainer> supplied() {
    SimSupply supply = new SimSupply(true, true, 16_000, 10, 2000, 5, 2);
    return on("Java supply", 8, 8, SimSettings.of(4, "04").withSupply(supply));
  }

  private static Stream<DynamicContainer> on(
      String name, int drives, int watches, SimSettings settings) {
    return Conformance.on(new JavaPeer.Maker(name, drives, watches, settings));
  }
}
