package cardproof.conformance;

import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicContainer;
import org.junit.jupiter.api.TestFactory;

/** The suite against the reference fixture's core on this machine. */
class HostCoreConformanceTest {
  private static final Path PROGRAM = Path.of("target", "firmware", "bench-fixture");

  @BeforeAll
  static void build() {
    MachineTool.needs("make");
    MachineTool.needs("cc");
    MachineTool.run("make", "-C", "firmware-notes/reference", "host");
  }

  @TestFactory
  Stream<DynamicContainer> usual() {
    return on("C core", 8, 8, List.of());
  }

  @TestFactory
  Stream<DynamicContainer> wide() {
    return on("C core wide", 19, 35, List.of("--slots", "2", "--period", "50"));
  }

  private static Stream<DynamicContainer> on(
      String name, int drives, int watches, List<String> options) {
    return Conformance.on(
        new HostCorePeer.Maker(name, drives, watches, PROGRAM.toAbsolutePath(), options));
  }
}
