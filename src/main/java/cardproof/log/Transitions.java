package cardproof.log;

import java.nio.ByteBuffer;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.BitSet;
import java.util.OptionalLong;

/**
 * Names the transition of each vector of a run, given in order: what was driven and seen before it,
 * and what is driven now. The name is the first eight bytes of a SHA-256, never 0, and the same in
 * every log, so that repeats are found across runs and benches. A settle time belongs to a
 * transition, and not to a line alone.
 */
final class Transitions {
  private final MessageDigest digest;
  private BitSet drivenBefore = new BitSet();
  private BitSet levelBefore = new BitSet();
  private boolean known = true;

  Transitions() {
    try {
      digest = MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException impossible) {
      throw new IllegalStateException("every Java has SHA-256", impossible);
    }
  }

  /**
   * The transition of the next vector; empty after one that may never have been driven. Before the
   * first one nothing is driven.
   */
  OptionalLong next(BitSet driven, BitSet level, BitSet seenBefore, Verdict verdict) {
    boolean tested = verdict != Verdict.UNTESTED;
    OptionalLong name =
        known && tested
            ? OptionalLong.of(name(drivenBefore, levelBefore, seenBefore, driven, level))
            : OptionalLong.empty();
    drivenBefore = driven;
    levelBefore = level;
    known = tested;
    return name;
  }

  private long name(BitSet... sets) {
    for (BitSet set : sets) {
      byte[] bytes = set.toByteArray();
      digest.update((byte) bytes.length);
      digest.update(bytes);
    }
    long name = ByteBuffer.wrap(digest.digest()).getLong();
    return name == 0 ? 1 : name;
  }
}
