package cardproof.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigInteger;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.LongRange;

/** Ranges of unsigned 64-bit words against plain arithmetic on integers of any size. */
class RangeProperties {
  private static final BigInteger MOST = BigInteger.valueOf(Long.MAX_VALUE);

  private static BigInteger unsigned(long word) {
    return new BigInteger(Long.toUnsignedString(word));
  }

  @Property
  void agreesWithArithmeticWithoutLimits(
      @ForAll long first, @ForAll long last, @ForAll @LongRange(min = 1) long step) {
    Generator range = Generators.range(first, last, step);
    BigInteger from = unsigned(first);
    BigInteger to = unsigned(last);
    BigInteger by = BigInteger.valueOf(step);
    BigInteger count = to.subtract(from).abs().divide(by).add(BigInteger.ONE).min(MOST);
    assertThat(BigInteger.valueOf(range.count())).isEqualTo(count);
    long lastIndex = range.count() - 1;
    BigInteger way = by.multiply(BigInteger.valueOf(lastIndex));
    assertThat(unsigned(range.at(0))).isEqualTo(from);
    assertThat(unsigned(range.at(lastIndex)))
        .isEqualTo(to.compareTo(from) >= 0 ? from.add(way) : from.subtract(way));
  }

  @Property
  void smallRangesNeverPassTheirEnd(
      @ForAll @LongRange(min = 0, max = 300) long first,
      @ForAll @LongRange(min = 0, max = 300) long last,
      @ForAll @LongRange(min = 1, max = 40) long step) {
    Generator range = Generators.range(first, last, step);
    for (long i = 0; i < range.count(); i++) {
      assertThat(range.at(i)).isBetween(Math.min(first, last), Math.max(first, last));
    }
    assertThat(Math.abs(last - range.at(range.count() - 1))).isLessThan(step);
  }
}
