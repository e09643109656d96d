package cardproof.sim.circuit;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.wiring.Wiring;
import java.util.Locale;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** What the state of a large card takes. */
@Tag("bench")
class MemoryTest {
  private static final int WIDTH = 336;
  private static final long MOST_BYTES = 64L << 20;

  @Test
  void aThousandRelaysFitIntoLittle() {
    Wiring wiring = Adders.ripple(WIDTH, Solder.pt(), true, true);
    assertThat(wiring.relays()).hasSizeGreaterThanOrEqualTo(1000);
    long before = used();
    CircuitProbe probe = CircuitProbe.of(wiring, 1);
    probe.drive(-1);
    probe.rest();
    long bytes = used() - before;
    System.out.printf(
        Locale.ROOT,
        "%d relays, %d nets: %.2f MB%n",
        wiring.relays().size(),
        wiring.nets().size(),
        bytes / 1048576.0);
    assertThat(bytes).isLessThan(MOST_BYTES);
    assertThat(probe.circuit.events()).isPositive();
  }

  private static long used() {
    for (int i = 0; i < 3; i++) {
      System.gc();
    }
    Runtime runtime = Runtime.getRuntime();
    return runtime.totalMemory() - runtime.freeMemory();
  }
}
