package cardproof.sim.circuit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** A wired adder against addition as the JDK has it, and the facts of a plus-one chain. */
class WiredSumTest {
  private static final int WIDTH = 12;

  @Test
  void addsWhateverIsDriven() {
    CircuitProbe sum = CircuitProbe.of(Adders.ripple(WIDTH, Solder.pt(), true, true), 1);
    long seed = System.nanoTime();
    Random random = new Random(seed);
    for (int i = 0; i < 300; i++) {
      long a = random.nextInt(1 << WIDTH);
      long b = random.nextInt(1 << WIDTH);
      long carry = random.nextInt(2);
      sum.drive(a | b << WIDTH | carry << 2 * WIDTH);
      sum.rest();
      assertThat(sum.word(2 * WIDTH + 1, WIDTH + 1))
          .as("%d + %d + %d, seed %d", a, b, carry, seed)
          .isEqualTo(a + b + carry);
    }
    assertThat(sum.circuit.warnings())
        .isEqualTo(new CircuitWarnings(0, 0, 0, 0, java.util.List.of()));
  }

  /** Common practice: 1 for input 0, 0x0100 for 0x00FF, 0 for 0xFFFF. */
  @Test
  void plusOneOfSixteenBits() {
    CircuitProbe chain = CircuitProbe.of(Adders.plusOne(16, Solder.pt()), 2);

    assertThat(chain.word(16, 16)).as("as found").isEqualTo(1);
    long[][] facts = {{0x00FF, 0x0100}, {0xFFFF, 0}, {0, 1}, {0x0FFF, 0x1000}};
    for (long[] fact : facts) {
      chain.drive(fact[0]);
      chain.rest();
      assertThat(chain.word(16, 16)).isEqualTo(fact[1]);
    }
  }

  /**
   * Common practice: a plus-one chain on its own input, no register between, never comes to rest.
   */
  @Test
  void aFedBackChainNeverRests() {
    CircuitProbe chain = CircuitProbe.of(Adders.fedBack(4, Solder.pt()), 3);
    chain.rest();
    chain.drive(1);
    chain.advance(10_000_000_000L);

    assertThat(chain.circuit.nextChangeNs()).isNotEqualTo(TimedHeap.NEVER);
    long before = chain.changes;
    long started = chain.nowNs();
    chain.advance(started + 10_000_000_000L);
    assertThat(chain.changes - before).isGreaterThan(200);
    chain.drive(0);
    chain.rest();
  }
}
