package cardproof.link;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * RESULT: a head, and one entry for each line that moved.
 *
 * <pre>
 *   0        4      8       10      18         22     24    28      30
 *   +--------+------+-------+-------+----------+------+-----+-------+--
 *   | number | next | flags | start | duration | skew | gap | blind |
 *   +--------+------+-------+-------+----------+------+-----+-------+--
 *   30       30+W   30+2W   30+3W      30+4W      30+5W     30+6W
 *   +--------+------+-------+----------+----------+---------+--
 *   | before | last | dwell | unstable | glitched | stirred |
 *   +--------+------+-------+----------+----------+---------+--
 *   30+6W   31+6W   32+6W  33+6W     45+6W
 *   +-------+-------+------+---------+---------+-- ...
 *   | moved | first | here | entry   | entry   |
 *   +-------+-------+------+---------+---------+-- ...
 *
 *   an entry:
 *   0       1              5             9         11      12
 *   +-------+--------------+-------------+---------+-------+
 *   | watch | first change | last change | changes | moves |
 *   +-------+--------------+-------------+---------+-------+
 *
 *   after the last entry, of a fixture that senses:
 *   0      2             4         6                 8
 *   +------+-------------+---------+-----------------+
 *   | rail | lowest rail | current | highest current |
 *   +------+-------------+---------+-----------------+
 * </pre>
 */
final class ResultFormat implements Format<Result> {
  static final int ENTRY_LENGTH = 12;

  private static final int NUMBER = 0;
  private static final int NEXT = 4;
  private static final int FLAGS = 8;
  private static final int START = 10;
  private static final int DURATION = 18;
  private static final int SKEW = 22;
  private static final int GAP = 24;
  private static final int BLIND = 28;
  private static final int BEFORE = 30;
  private static final int SETS = 6;
  private static final int COUNTS_LENGTH = 3;

  private static final int ENTRY_WATCH = 0;
  private static final int ENTRY_FIRST = 1;
  private static final int ENTRY_LAST = 5;
  private static final int ENTRY_CHANGES = 9;
  private static final int ENTRY_MOVES = 11;

  static final int SENSE_LENGTH = 8;

  private final int watches;
  private final boolean sensed;
  private final int size;
  private final int movedAt;
  private final int firstAt;
  private final int hereAt;
  private final int entriesAt;

  ResultFormat(int watches, boolean sensed) {
    this.watches = watches;
    this.sensed = sensed;
    this.size = Body.setSize(watches);
    this.movedAt = BEFORE + SETS * size;
    this.firstAt = movedAt + 1;
    this.hereAt = movedAt + 2;
    this.entriesAt = headLength(watches);
  }

  /** Bytes of the body before the first entry. */
  static int headLength(int watches) {
    return BEFORE + SETS * Body.setSize(watches) + COUNTS_LENGTH;
  }

  @Override
  public int length(Result result) {
    return entriesAt + ENTRY_LENGTH * result.moved().size() + senseLength();
  }

  @Override
  public int length(Body body) {
    int here = body.length() > hereAt ? body.u8(hereAt) : 0;
    return entriesAt + ENTRY_LENGTH * here + senseLength();
  }

  private int senseLength() {
    return sensed ? SENSE_LENGTH : 0;
  }

  @Override
  public void put(Result result, Body body) {
    body.putI32(NUMBER, result.number());
    body.putI32(NEXT, result.next());
    body.putU16(FLAGS, result.flags());
    body.putI64(START, result.startUs());
    body.putU32(DURATION, result.durationUs());
    body.putU16(SKEW, result.skewUs());
    body.putU32(GAP, result.gapUs());
    body.putU16(BLIND, result.blindUs());
    body.putSet(BEFORE, watches, result.before());
    body.putSet(BEFORE + size, watches, result.last());
    body.putSet(BEFORE + 2 * size, watches, result.atDwell());
    body.putSet(BEFORE + 3 * size, watches, result.unstable());
    body.putSet(BEFORE + 4 * size, watches, result.glitched());
    body.putSet(BEFORE + 5 * size, watches, result.stirred());
    body.putU8(movedAt, result.movedTotal());
    body.putU8(firstAt, result.firstEntry());
    body.putU8(hereAt, result.moved().size());
    int at = entriesAt;
    for (MovedWatch moved : result.moved()) {
      putEntry(moved, body, at);
      at += ENTRY_LENGTH;
    }
    if (sensed != result.sense().isPresent()) {
      throw new IllegalArgumentException(
          sensed ? "a result without rail and current" : "rail and current that nobody expects");
    }
    if (sensed) {
      putSense(result.sense().get(), body, at);
    }
  }

  private static void putSense(StepSense sense, Body body, int at) {
    body.putU16(at, sense.railMv());
    body.putU16(at + 2, sense.lowestRailMv());
    body.putU16(at + 4, sense.currentMa());
    body.putU16(at + 6, sense.highestCurrentMa());
  }

  private Optional<StepSense> sense(Body body) {
    int at = entriesAt + ENTRY_LENGTH * body.u8(hereAt);
    return sensed
        ? Optional.of(
            new StepSense(body.u16(at), body.u16(at + 2), body.u16(at + 4), body.u16(at + 6)))
        : Optional.empty();
  }

  @Override
  public Result get(Body body) {
    return new Result(
        body.i32(NUMBER),
        body.i32(NEXT),
        body.u16(FLAGS),
        body.i64(START),
        body.u32(DURATION),
        body.u16(SKEW),
        body.u32(GAP),
        body.u16(BLIND),
        body.set(BEFORE, size),
        body.set(BEFORE + size, size),
        body.set(BEFORE + 2 * size, size),
        body.set(BEFORE + 3 * size, size),
        body.set(BEFORE + 4 * size, size),
        body.set(BEFORE + 5 * size, size),
        body.u8(movedAt),
        body.u8(firstAt),
        entries(body),
        sense(body));
  }

  @Override
  public int badField(Result result) {
    int set = 0;
    for (var lines :
        List.of(
            result.before(),
            result.last(),
            result.atDwell(),
            result.unstable(),
            result.glitched(),
            result.stirred())) {
      if (lines.length() > watches) {
        return BEFORE + set * size;
      }
      set++;
    }
    if (result.movedTotal() > watches) {
      return movedAt;
    } else if (result.firstEntry() + result.moved().size() > result.movedTotal()) {
      return firstAt;
    }
    return badEntry(result.moved());
  }

  private int badEntry(List<MovedWatch> moved) {
    int before = -1;
    for (int i = 0; i < moved.size(); i++) {
      int watch = moved.get(i).watch();
      if (watch <= before || watch >= watches) {
        return entriesAt + i * ENTRY_LENGTH + ENTRY_WATCH;
      }
      before = watch;
    }
    return NO_FIELD;
  }

  private List<MovedWatch> entries(Body body) {
    return IntStream.range(0, body.u8(hereAt))
        .mapToObj(i -> entry(body, entriesAt + i * ENTRY_LENGTH))
        .toList();
  }

  private static MovedWatch entry(Body body, int at) {
    return new MovedWatch(
        body.u8(at + ENTRY_WATCH),
        body.u32(at + ENTRY_FIRST),
        body.u32(at + ENTRY_LAST),
        body.u16(at + ENTRY_CHANGES),
        body.u8(at + ENTRY_MOVES));
  }

  private static void putEntry(MovedWatch moved, Body body, int at) {
    body.putU8(at + ENTRY_WATCH, moved.watch());
    body.putU32(at + ENTRY_FIRST, moved.firstUs());
    body.putU32(at + ENTRY_LAST, moved.lastUs());
    body.putU16(at + ENTRY_CHANGES, moved.changes());
    body.putU8(at + ENTRY_MOVES, moved.moves());
  }
}
