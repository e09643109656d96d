package cardproof.bits;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

class BitRangeProperties {
  @Property
  void rangesHoldEveryBitOnceHighestFirstAndNeverTouch(@ForAll long bits) {
    long together = 0;
    int above = 65;
    for (BitRange range : BitRange.of(bits)) {
      assertThat(range.high()).isLessThan(above - 1);
      assertThat(range.low()).isBetween(0, range.high());
      for (int bit = range.low(); bit <= range.high(); bit++) {
        together |= 1L << bit;
      }
      above = range.low();
    }
    assertThat(together).isEqualTo(bits);
  }

  @Example
  void allOfSixtyFourBitsAreOneRange() {
    assertThat(BitRange.of(-1L)).containsExactly(new BitRange(63, 0));
    assertThat(BitRange.of(0)).isEmpty();
  }

  /** Part-selects as IEEE 1364-2005, clause 5.2.1, writes them: most significant bit first. */
  @Example
  void aRangeIsWrittenAsAPartSelect() {
    List<BitRange> ranges = BitRange.of(0xF09);
    assertThat(ranges.stream().map(range -> range.of("S", 12)))
        .containsExactly("S[11:8]", "S[3]", "S[0]");
    assertThat(new BitRange(0, 0).of("CI", 1)).isEqualTo("CI");
  }
}
