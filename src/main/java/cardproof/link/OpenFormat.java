package cardproof.link;

/**
 * OPEN.
 *
 * <pre>
 *   0      4         8         10      11        13          15        19       19+D      19+D+W
 *   +------+---------+---------+-------+---------+-----------+---------+--------+---------+
 *   | boot | follows | silence | moves | changes | move rest | hold ms | drives | watches |
 *   +------+---------+---------+-------+---------+-----------+---------+--------+---------+
 * </pre>
 */
final class OpenFormat implements Format<Open> {
  private static final int BOOT = 0;
  private static final int FOLLOWS = 4;
  private static final int SILENCE = 8;
  private static final int CHATTER_MOVES = 10;
  private static final int CHATTER_CHANGES = 11;
  private static final int MOVE_REST = 13;
  private static final int HOLD = 15;
  private static final int DRIVES = 19;

  private static final int LEAST_SILENCE_MS = 100;
  private static final int MOST_SILENCE_MS = 10_000;
  private static final int LEAST_MOVES = 2;
  private static final int LEAST_CHANGES = 16;

  private final int drives;
  private final int watches;
  private final int watchesAt;
  private final int length;

  OpenFormat(int drives, int watches) {
    this.drives = drives;
    this.watches = watches;
    this.watchesAt = DRIVES + Body.setSize(drives);
    this.length = length(drives, watches);
  }

  /** Bytes of the body for a fixture with these channels. */
  static int length(int drives, int watches) {
    return DRIVES + Body.setSize(drives) + Body.setSize(watches);
  }

  @Override
  public int length(Open open) {
    return length;
  }

  @Override
  public int length(Body body) {
    return length;
  }

  @Override
  public void put(Open open, Body body) {
    body.putI32(BOOT, open.boot());
    body.putI32(FOLLOWS, open.follows());
    body.putU16(SILENCE, open.silenceMs());
    body.putU8(CHATTER_MOVES, open.chatterMoves());
    body.putU16(CHATTER_CHANGES, open.chatterChanges());
    body.putU16(MOVE_REST, open.moveRestUs());
    body.putU32(HOLD, open.holdMs());
    body.putSet(DRIVES, drives, open.drives());
    body.putSet(watchesAt, watches, open.watches());
  }

  @Override
  public Open get(Body body) {
    return new Open(
        body.i32(BOOT),
        body.i32(FOLLOWS),
        body.u16(SILENCE),
        body.u8(CHATTER_MOVES),
        body.u16(CHATTER_CHANGES),
        body.u16(MOVE_REST),
        body.u32(HOLD),
        body.set(DRIVES, Body.setSize(drives)),
        body.set(watchesAt, Body.setSize(watches)));
  }

  @Override
  public int badField(Open open) {
    if (open.silenceMs() < LEAST_SILENCE_MS || open.silenceMs() > MOST_SILENCE_MS) {
      return SILENCE;
    } else if (open.chatterMoves() < LEAST_MOVES) {
      return CHATTER_MOVES;
    } else if (open.chatterChanges() < LEAST_CHANGES) {
      return CHATTER_CHANGES;
    } else if (open.holdMs() < 1) {
      return HOLD;
    } else if (open.drives().length() > drives) {
      return DRIVES;
    }
    return open.watches().length() > watches ? watchesAt : NO_FIELD;
  }
}
