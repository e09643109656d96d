package cardproof.bits;

import java.util.ArrayList;
import java.util.List;

/**
 * Neighbouring bits of a word.
 *
 * @param high at least {@code low}
 * @param low from 0
 */
public record BitRange(int high, int low) {
  /** Bits that are set, put together where they are neighbours; the highest first. */
  public static List<BitRange> of(long bits) {
    List<BitRange> ranges = new ArrayList<>();
    int high = 63;
    while (high >= 0) {
      if ((bits >>> high & 1) == 0) {
        high--;
        continue;
      }
      int low = high;
      while (low > 0 && (bits >>> (low - 1) & 1) != 0) {
        low--;
      }
      ranges.add(new BitRange(high, low));
      high = low - 1;
    }
    return List.copyOf(ranges);
  }

  /**
   * As a part-select: {@code S[11:8]}, {@code S[3]}, and {@code CI} of a word one bit wide.
   *
   * @param width of the whole word
   */
  public String of(String name, int width) {
    if (width == 1) {
      return name;
    }
    return high == low ? name + "[" + low + "]" : name + "[" + high + ":" + low + "]";
  }
}
