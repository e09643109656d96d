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

  /**
   * Every word of a width of at most 62 bits in the reflected binary code (Gray, US patent 2 632
   * 058, 1953): neighbours differ in one line only, and so do the last word and the first. Right
   * for what a card does, wrong for its pace, as never do two lines change together.
   */
  public static Generator gray(int width) {
    return of(1L << width, index -> index ^ (index >>> 1));
  }

  /**
   * Lines that differ from their neighbours, and then the same the other way round. Common practice
   * for shorts between lines that lie side by side.
   *
   * @param run lines that are alike, from 1; the lowest {@code run} lines are 1 first
   */
  public static Generator checkerboard(int width, int run) {
    long first = Checkerboards.word(width, run);
    return list(List.of(first, mask(width) & ~first));
  }

  /**
   * For one operand of an adder, the other (or the carry in) being 1: the lowest line, the lowest
   * two, and so on to all of them. Word {@code k} of {@code width}, from 0, starts a carry at bit 0
   * that runs on through bit {@code k} and no further; with the last it leaves at the top. Common
   * practice for ripple-carry adders, and what takes them longest.
   */
  public static Generator carryChain(int width) {
    return of(width, index -> mask((int) index + 1));
  }

  /**
   * For both operands of an adder, joined, the first most significant: every carry, from every bit
   * at which it can start to every bit through which it can run, the shortest first. See {@link
   * CarryChains}.
   *
   * @param width of one operand, at most 32
   */
  public static Generator carryChainsFromEveryBit(int width) {
    return new CarryChains(width);
  }

  /**
   * Few words that tell every line from every other: line {@code i} goes through the bits of the
   * number {@code i + 1}, the lowest first. See {@link LineCodes#counting}.
   *
   * @param complements whether each word is followed by its complement, so that every line also
   *     goes both ways
   */
  public static Generator countingCodes(int width, boolean complements) {
    Generator codes = LineCodes.counting(width).words();
    return complements
        ? of(2 * codes.count(), i -> codes.at(i / 2) ^ (i % 2 == 0 ? 0 : mask(width)))
        : codes;
  }

  /**
   * The fewest words in which no line is 1 wherever some other is, so that on a wired-OR bus no
   * short can hide behind the longer code. See {@link LineCodes#constantWeight}.
   */
  public static Generator constantWeight(int width) {
    return LineCodes.constantWeight(width).words();
  }

  /**
   * Every change from one code to another once, in one closed tour that begins and ends with 0. See
   * {@link PairTour}.
   *
   * @param codes how many codes, from 0 up; 2 to 2^31
   */
  public static Generator pairTour(long codes) {
    return new PairTour(codes);
  }

  private static long splitMix64(long state) {
    long z = (state ^ (state >>> 30)) * 0xBF58476D1CE4E5B9L;
    z = (z ^ (z >>> 27)) * 0x94D049BB133111EBL;
    return z ^ (z >>> 31);
  }

  static long mask(int width) {
    return -1L >>> (64 - width);
  }

  static Generator of(long count, LongUnaryOperator at) {
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
