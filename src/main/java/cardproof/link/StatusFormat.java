package cardproof.link;

/**
 * STATUS.
 *
 * <pre>
 *   0       1       2            3      7      11         15      19    27      31        35
 *   +-------+-------+------------+------+------+----------+-------+-----+-------+---------+--
 *   | state | cause | chattering | boot | next | finished | acked | now | whole | damaged |
 *   +-------+-------+------------+------+------+----------+-------+-----+-------+---------+--
 *   35   35+D     35+D+W    35+D+2W
 *   +----+--------+---------+
 *   | on | levels | stirred |
 *   +----+--------+---------+
 * </pre>
 */
final class StatusFormat implements Format<Status> {
  private static final int STATE = 0;
  private static final int CAUSE = 1;
  private static final int CHATTERING = 2;
  private static final int BOOT = 3;
  private static final int NEXT = 7;
  private static final int FINISHED = 11;
  private static final int ACKED = 15;
  private static final int NOW = 19;
  private static final int WHOLE = 27;
  private static final int DAMAGED = 31;
  private static final int ON = 35;

  private final int drives;
  private final int watches;
  private final int driveBytes;
  private final int watchBytes;
  private final int levelsAt;
  private final int stirredAt;
  private final int length;

  StatusFormat(int drives, int watches) {
    this.drives = drives;
    this.watches = watches;
    this.driveBytes = Body.setSize(drives);
    this.watchBytes = Body.setSize(watches);
    this.levelsAt = ON + driveBytes;
    this.stirredAt = levelsAt + watchBytes;
    this.length = stirredAt + watchBytes;
  }

  @Override
  public int length(Status status) {
    return length;
  }

  @Override
  public int length(Body body) {
    return length;
  }

  @Override
  public void put(Status status, Body body) {
    body.putU8(STATE, status.state().code());
    body.putU8(CAUSE, status.cause().code());
    body.putU8(CHATTERING, status.chattering());
    body.putI32(BOOT, status.boot());
    body.putI32(NEXT, status.next());
    body.putI32(FINISHED, status.finished());
    body.putI32(ACKED, status.acked());
    body.putI64(NOW, status.nowUs());
    body.putU32(WHOLE, status.framesWhole());
    body.putU32(DAMAGED, status.framesDamaged());
    body.putSet(ON, drives, status.on());
    body.putSet(levelsAt, watches, status.levels());
    body.putSet(stirredAt, watches, status.stirred());
  }

  @Override
  public Status get(Body body) {
    return new Status(
        FixtureState.of(body.u8(STATE)),
        DropCause.of(body.u8(CAUSE)),
        body.u8(CHATTERING),
        body.i32(BOOT),
        body.i32(NEXT),
        body.i32(FINISHED),
        body.i32(ACKED),
        body.i64(NOW),
        body.u32(WHOLE),
        body.u32(DAMAGED),
        body.set(ON, driveBytes),
        body.set(levelsAt, watchBytes),
        body.set(stirredAt, watchBytes));
  }

  @Override
  public int badField(Status status) {
    if (status.chattering() >= watches && status.chattering() != Protocol.NO_WATCH) {
      return CHATTERING;
    } else if (Integer.compareUnsigned(status.finished(), status.next()) > 0) {
      return FINISHED;
    } else if (Integer.compareUnsigned(status.acked(), status.finished()) > 0) {
      return ACKED;
    } else if (status.on().length() > drives) {
      return ON;
    } else if (status.levels().length() > watches) {
      return levelsAt;
    }
    return status.stirred().length() > watches ? stirredAt : NO_FIELD;
  }
}
