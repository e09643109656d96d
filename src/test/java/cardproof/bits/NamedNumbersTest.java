package cardproof.bits;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** A name may stand for a number as it is written, width and all. */
class NamedNumbersTest {
  private static final Map<String, String> NUMBERS = Map.of("NEAP", "412", "MASK", "0x00F");

  private static final Scope SCOPE =
      new Scope() {
        @Override
        public int slotOf(String name) {
          return name.equals("A") ? 0 : -1;
        }

        @Override
        public int widthOf(int slot) {
          return 12;
        }

        @Override
        public Optional<String> constant(String name) {
          return Optional.ofNullable(NUMBERS.get(name));
        }

        @Override
        public Collection<String> names() {
          return List.of("A", "MASK", "NEAP");
        }
      };

  private static long value(String text, long a) {
    Values values = new Values(2);
    values.set(0, a, 0);
    Expression.compile(text, SCOPE).evaluate(values, values, 1, 64);
    return values.value(1);
  }

  @Test
  void itIsTheNumberWhereverOneMayStand() {
    assertThat(value("A + NEAP", 137)).isEqualTo(549);
    assertThat(value("A & MASK", 0xABC)).isEqualTo(0x00C);
    assertThat(value("~MASK == 0xFF0", 0)).isEqualTo(1);
    assertThat(value("A[NEAP - 409]", 0b1000)).isEqualTo(1);
  }

  /** As wide as it is written: IEEE 1364-2005 table 5-22, a number's own width. */
  @Test
  void itHasTheWidthOfTheNumberAsWritten() {
    assertThat(Expression.compile("{MASK, A}", SCOPE).width()).isEqualTo(24);
    assertThat(Expression.compile("NEAP", SCOPE).width()).isEqualTo(9);
  }

  @Test
  void noBitsAreSelectedFromItAndASlipGetsTheNearest() {
    assertThatThrownBy(() -> Expression.compile("NEAP[3]", SCOPE))
        .isInstanceOf(ExpressionException.class)
        .hasMessageContaining("no plain name");
    assertThatThrownBy(() -> Expression.compile("NEPA + 1", SCOPE))
        .isInstanceOf(ExpressionException.class)
        .hasMessageContaining("NEAP");
  }
}
