package cardproof.bits;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;

class ValuesTest {
  @Test
  void startsAsKnownZeros() {
    Values values = new Values(2);

    assertThat(values.size()).isEqualTo(2);
    assertThat(values.value(1)).isZero();
    assertThat(values.unknown(1)).isZero();
  }

  @Test
  void anUnknownBitHasNoValue() {
    Values values = new Values(2);
    values.set(1, 0b1111, 0b0101);

    assertThat(values.value(1)).isEqualTo(0b1010);
    assertThat(values.unknown(1)).isEqualTo(0b0101);
    assertThat(values.value(0)).isZero();
    assertThat(values).hasToString("[0]=0x0 [1]=0xa/x0x5");
  }

  @Test
  void copiesAndCompares() {
    Values values = new Values(2);
    Values copy = new Values(2);
    values.set(1, 0, 1);

    assertThat(copy.sameAs(values)).isFalse();
    copy.copyFrom(values);
    assertThat(copy.sameAs(values)).isTrue();
    values.set(0, 1, 0);
    assertThat(copy.value(0)).isZero();
  }

  @Test
  void neverCopiesOtherSlots() {
    assertThat(new Values(1).sameAs(new Values(2))).isFalse();
    assertThatThrownBy(() -> new Values(1).copyFrom(new Values(2)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("2 slots");
  }
}
