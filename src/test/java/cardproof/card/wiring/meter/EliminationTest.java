package cardproof.card.wiring.meter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class EliminationTest {
  /** 2x + y = 3 and x + 2y = 3, and so x = y = 1. */
  @Test
  void solves() {
    double[][] rows = {{2, 1, 3}, {1, 2, 3}};
    Elimination.solve(rows);
    assertThat(rows[0][2]).isCloseTo(1, within(1e-12));
    assertThat(rows[1][2]).isCloseTo(1, within(1e-12));
  }
}
