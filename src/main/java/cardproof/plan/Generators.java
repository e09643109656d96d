package cardproof.plan;

import java.util.List;
import java.util.function.LongUnaryOperator;

/** The generators a plan can name. Widths are 1 to 64 bits. */
public final class Generators {
  private Generators() {}

  /** The words given, in their order. */
  public static Generator list(List<Long> words) {
    long[] values = words.stream().mapToLong(Long::longValue).toArray();
    return of(values.length, index -> values[(int) index]);
  }

  /**
   * From {@code first} to {@code last}, both included where the step meets them; up or down. All
   * three are unsigned, and the step is not 0. Of more than 2^63 - 1 words the last are left out.
   */
  public static Generator range(long first, long last, long step) {
    boolean up = Long.compareUnsigned(last, first) >= 0;
    long steps = Long.divideUnsigned(up ? last - first : first - last, step);
    long count = steps < 0 || steps == Long.MAX_VALUE ? Long.MAX_VALUE : steps + 1;
    return of(count, i -> up ? first + i * step : first - i * step);
  }

  /** One line at a time, bit 0 first: the pattern that tells best which line is which. */
  public static Generator walkingOnes(int width) {
    return of(width, index -> 1L << index);
  }

  /** All lines but one, bit 0 first. */
  public static Generator walkingZeros(int width) {
    long mask = mask(width);
    return of(width, index -> mask & ~(1L << index));
  }

  /** Every word of a width of at most 62 bits, counting up. */
  public static Generator all(int width) {
    return of(1L << width, index -> index);
  }

  /**
   * Independent random words, the same for the same seed on every machine: word i is the i-th
   * output of SplitMix64 (Steele, Lea & Flood, OOPSLA 2014) started at the seed, cut to the width.
   */
  public static Generator random(int width, long count, long seed) {
    long mask = mask(width);
    return of(count, index -> mask & splitMix64(seed + (index + 1) * 0x9E3779B97F4A7C15L));
  }

  private static long splitMix64(long state) {
    long z = (state ^ (state >>> 30)) * 0xBF58476D1CE4E5B9L;
    z = (z ^ (z >>> 27)) * 0x94D049BB133111EBL;
    return z ^ (z >>> 31);
  }

  private static long mask(int width) {
    return -1L >>> (64 - width);
  }

  private static Generator of(long count, LongUnaryOperator at) {
    return new Generator() {
      @Override
      public long count() {
        return count;
      }

      @Override
      public long at(long index) {
        return at.applyAsLong(index);
      }
    };
  }
}
