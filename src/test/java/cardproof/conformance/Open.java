package cardproof.conformance;

import java.util.BitSet;
import java.util.Optional;

/** What OPEN says, section 5 (0x02); sets left out mean all channels. */
record Open(
    int silenceMs,
    int moves,
    int changes,
    int restUs,
    long holdMs,
    Optional<BitSet> drives,
    Optional<BitSet> watches) {
  static final Open USUAL =
      new Open(1000, 200, 60000, 2000, 60_000, Optional.empty(), Optional.empty());

  Open silence(int ms) {
    return new Open(ms, moves, changes, restUs, holdMs, drives, watches);
  }

  Open chatter(int byMoves, int byChanges, int rest) {
    return new Open(silenceMs, byMoves, byChanges, rest, holdMs, drives, watches);
  }

  Open hold(long ms) {
    return new Open(silenceMs, moves, changes, restUs, ms, drives, watches);
  }

  Open allow(int... channels) {
    return new Open(
        silenceMs, moves, changes, restUs, holdMs, Optional.of(Sets.of(channels)), watches);
  }

  Open watch(int... channels) {
    return new Open(
        silenceMs, moves, changes, restUs, holdMs, drives, Optional.of(Sets.of(channels)));
  }

  Frame frame(int session, HelloR shape, int boot, int follows) {
    byte[] body =
        new Bytes()
            .u32(boot)
            .u32(follows)
            .u16(silenceMs)
            .u8(moves)
            .u16(changes)
            .u16(restUs)
            .u32(holdMs)
            .set(drives.orElse(Sets.all(shape.drives())), shape.d())
            .set(watches.orElse(Sets.all(shape.watches())), shape.w())
            .done();
    return new Frame(Type.OPEN, session, body);
  }
}
