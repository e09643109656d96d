package cardproof.card.wiring.review;

import java.util.Arrays;
import java.util.BitSet;

/**
 * A function of a few two-valued variables, one bit for every assignment: variable v is bit v of
 * the assignment's number.
 */
final class Table {
  private static final long[] LOW_VARIABLES = {
    0xAAAAAAAAAAAAAAAAL,
    0xCCCCCCCCCCCCCCCCL,
    0xF0F0F0F0F0F0F0F0L,
    0xFF00FF00FF00FF00L,
    0xFFFF0000FFFF0000L,
    0xFFFFFFFF00000000L
  };

  private final long[] bits;

  private Table(long[] bits) {
    this.bits = bits;
  }

  /** False everywhere. */
  static Table never(int variables) {
    return new Table(new long[variables <= 6 ? 1 : 1 << (variables - 6)]);
  }

  static Table always(int variables) {
    Table all = never(variables);
    Arrays.fill(all.bits, -1L);
    return all;
  }

  static Table variable(int v, int variables) {
    Table table = never(variables);
    for (int word = 0; word < table.bits.length; word++) {
      table.bits[word] =
          v < LOW_VARIABLES.length ? LOW_VARIABLES[v] : -(word >>> (v - LOW_VARIABLES.length) & 1L);
    }
    return table;
  }

  /** The same function among more variables, which it does not hang on. */
  Table over(int variables) {
    Table table = never(variables);
    for (int word = 0; word < table.bits.length; word++) {
      table.bits[word] = bits[word % bits.length];
    }
    return table;
  }

  Table not() {
    long[] result = new long[bits.length];
    for (int word = 0; word < result.length; word++) {
      result[word] = ~bits[word];
    }
    return new Table(result);
  }

  /**
   * Takes in where both of two others hold.
   *
   * @return whether that was anything new
   */
  boolean orAnd(Table one, Table other) {
    long fresh = 0;
    for (int word = 0; word < bits.length; word++) {
      long both = one.bits[word] & other.bits[word];
      fresh |= both & ~bits[word];
      bits[word] |= both;
    }
    return fresh != 0;
  }

  /** Takes in where the function changes with a variable, the others being as they are. */
  void orChangeWith(int v, Table function) {
    if (v < LOW_VARIABLES.length) {
      long mask = LOW_VARIABLES[v];
      int shift = 1 << v;
      for (int word = 0; word < bits.length; word++) {
        long swapped =
            (function.bits[word] & mask) >>> shift | (function.bits[word] & ~mask) << shift;
        bits[word] |= function.bits[word] ^ swapped;
      }
    } else {
      int step = 1 << (v - LOW_VARIABLES.length);
      for (int word = 0; word < bits.length; word++) {
        bits[word] |= function.bits[word] ^ function.bits[word ^ step];
      }
    }
  }

  /** Assignments of the first few variables under which it holds for some of the others. */
  BitSet possibleUnder(int first) {
    long[] folded = new long[Math.max(1, 1 << first >> LOW_VARIABLES.length)];
    for (int word = 0; word < bits.length; word++) {
      folded[word % folded.length] |= bits[word];
    }
    for (int v = LOW_VARIABLES.length - 1; v >= first; v--) {
      folded[0] |= folded[0] >>> (1 << v);
    }
    return BitSet.valueOf(folded).get(0, 1 << first);
  }

  boolean holdsNever() {
    return Arrays.stream(bits).allMatch(word -> word == 0);
  }

  boolean holdsAlways() {
    return Arrays.stream(bits).allMatch(word -> word == -1L);
  }
}
