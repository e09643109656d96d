package cardproof.bits;

import java.util.Arrays;

/**
 * Values of numbered slots, each a word of up to 64 bits in two planes: value, and which bits are
 * unknown. A slot's width is known to whoever numbered the slots, not here. All slots start as 0,
 * known. Mutable and not thread safe.
 */
public final class Values {
  // value and unknown of one slot side by side: one cache line serves both
  private final long[] words;

  /**
   * @param slots how many, 0 or more
   */
  public Values(int slots) {
    words = new long[2 * slots];
  }

  /** The bits of a slot, 0 where unknown. */
  public long value(int slot) {
    return words[2 * slot];
  }

  /** A 1 for each bit of a slot that is x. */
  public long unknown(int slot) {
    return words[2 * slot + 1];
  }

  /** Stores both planes; value bits under an unknown bit are stored as 0. */
  public void set(int slot, long value, long unknown) {
    words[2 * slot] = value & ~unknown;
    words[2 * slot + 1] = unknown;
  }

  /** How many slots there are. */
  public int size() {
    return words.length / 2;
  }

  /**
   * Takes over every slot of {@code other}.
   *
   * @throws IllegalArgumentException when the numbers of slots differ
   */
  public void copyFrom(Values other) {
    if (other.words.length != words.length) {
      throw new IllegalArgumentException(
          "Values of " + other.size() + " slots cannot be copied into " + size() + " slots");
    }
    System.arraycopy(other.words, 0, words, 0, words.length);
  }

  /** Whether every slot is the same in both planes: an x equals an x only. */
  public boolean sameAs(Values other) {
    return Arrays.equals(words, other.words);
  }

  /** {@code [0]=0x5 [1]=0x0/x0xF}: each slot in hexadecimal, then its unknown bits if any. */
  @Override
  public String toString() {
    StringBuilder text = new StringBuilder();
    for (int slot = 0; slot < size(); slot++) {
      text.append(slot == 0 ? "" : " ").append('[').append(slot).append("]=0x");
      text.append(Long.toHexString(value(slot)));
      if (unknown(slot) != 0) {
        text.append("/x0x").append(Long.toHexString(unknown(slot)));
      }
    }
    return text.toString();
  }
}
