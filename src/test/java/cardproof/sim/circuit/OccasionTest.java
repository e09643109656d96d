package cardproof.sim.circuit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;

final class OccasionTest {
  private static final long UNIT = Draws.key(1, "03");
  private static final long RELAY = Draws.key(UNIT, "K7");

  @Test
  void byItselfARelayIsWhatItIs() {
    assertThat(Occasion.first(UNIT).factor(RELAY)).isEqualTo(1);
    assertThat(Occasion.first(UNIT).firstOperation()).isZero();
  }

  /** Copper gains 0.39 % of resistance a kelvin (IEC 60028); a bench is a few kelvin up or down. */
  @Test
  void anotherTimeItIsALittleQuickerOrSlower() {
    assertThat(LongStream.range(1, 200).mapToObj(s -> new Occasion(UNIT, s).factor(RELAY)).toList())
        .allMatch(factor -> factor > 0.985 && factor < 1.0151)
        .anyMatch(factor -> factor > 1.005)
        .anyMatch(factor -> factor < 0.995);
  }

  @Test
  void allRelaysOfACopyMoveTogetherMoreThanApart() {
    double apart = 0;
    double together = 0;
    for (long session = 1; session <= 200; session++) {
      Occasion occasion = new Occasion(UNIT, session);
      double one = occasion.factor(RELAY) - 1;
      double other = occasion.factor(Draws.key(UNIT, "K8")) - 1;
      together += one * other;
      apart += one * one;
    }
    assertThat(together / apart).isBetween(0.5, 0.95);
  }
}
