package cardproof.log;

import cardproof.bits.WordText;
import java.util.BitSet;
import java.util.List;

/** Sets of lines as the word of a bus. */
public final class BusWord {
  private BusWord() {}

  /**
   * {@code 0x0A5}, with {@code x} where a line is not known.
   *
   * @param lines of one bus
   * @param level lines that are 1
   * @param known lines whose level is told
   */
  public static String of(List<LineName> lines, BitSet level, BitSet known) {
    long value = 0;
    long unknown = 0;
    int width = 0;
    for (LineName line : lines) {
      width = Math.max(width, line.bit() + 1);
      if (!known.get(line.line())) {
        unknown |= 1L << line.bit();
      } else if (level.get(line.line())) {
        value |= 1L << line.bit();
      }
    }
    return WordText.of(value, unknown, width);
  }

  /** The same of a bus whose lines are all known: those that are not in {@code on} are 0. */
  public static String of(List<LineName> lines, BitSet on) {
    BitSet all = new BitSet();
    lines.forEach(line -> all.set(line.line()));
    return of(lines, on, all);
  }
}
