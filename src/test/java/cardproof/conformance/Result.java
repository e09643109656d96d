package cardproof.conformance;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;

/** RESULT, section 5 (0x83), or one part of it, with the tail of 9.4 where there is one. */
record Result(
    long step,
    long next,
    int flags,
    long startUs,
    long durationUs,
    int skewUs,
    long gapUs,
    int blindUs,
    BitSet before,
    BitSet last,
    BitSet dwell,
    BitSet unstable,
    BitSet glitched,
    BitSet stirred,
    int moved,
    int firstIndex,
    List<Entry> entries,
    Optional<Sense> sense) {
  static final int QUIET = 0;
  static final int MATCHED = 1;
  static final int EARLY = 2;
  static final int MISSED = 3;
  static final int TRIPPED = 4;
  static final int STOPPED = 5;
  static final int DWELT = 6;

  /** What one line did. */
  record Entry(int watch, long firstUs, long lastUs, int changes, int moves) {}

  /** Rail and current, at the end and the most telling value of the step. */
  record Sense(int railMv, int lowestMv, int currentMa, int highestMa) {}

  static Result of(byte[] body, HelloR shape) {
    Fields f = new Fields(body);
    int w = shape.w();
    int head = 33 + 6 * w;
    List<Entry> entries = new ArrayList<>();
    int count = f.u8(head - 1);
    int tail = body.length - head - 12 * count;
    if (tail != 0 && tail != 8) {
      throw new AssertionError("RESULT of " + body.length + " bytes with " + count + " entries");
    }
    for (int at = head; at < head + 12 * count; at += 12) {
      entries.add(new Entry(f.u8(at), f.u32(at + 1), f.u32(at + 5), f.u16(at + 9), f.u8(at + 11)));
    }
    int end = head + 12 * count;
    return new Result(
        f.u32(0),
        f.u32(4),
        f.u16(8),
        f.u64(10),
        f.u32(18),
        f.u16(22),
        f.u32(24),
        f.u16(28),
        f.set(30, w),
        f.set(30 + w, w),
        f.set(30 + 2 * w, w),
        f.set(30 + 3 * w, w),
        f.set(30 + 4 * w, w),
        f.set(30 + 5 * w, w),
        f.u8(30 + 6 * w),
        f.u8(31 + 6 * w),
        entries,
        tail == 8
            ? Optional.of(new Sense(f.u16(end), f.u16(end + 2), f.u16(end + 4), f.u16(end + 6)))
            : Optional.empty());
  }

  boolean has(int flag) {
    return (flags >> flag & 1) != 0;
  }

  Entry entry(int watch) {
    return entries.stream()
        .filter(entry -> entry.watch == watch)
        .findFirst()
        .orElseThrow(() -> new AssertionError("watch " + watch + " did not move: " + this));
  }

  long endUs() {
    return startUs + durationUs;
  }
}
