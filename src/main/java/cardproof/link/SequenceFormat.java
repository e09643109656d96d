package cardproof.link;

import java.util.ArrayList;
import java.util.List;

/**
 * SEQUENCE: the body of STEP, and what the drives become later.
 *
 * <pre>
 *   0               21+2D+3W  22+2D+3W  26+4D+3W
 *   +---------------+---------+---------+---------+-- ...
 *   | body of STEP  | entries | entry   | entry   |
 *   +---------------+---------+---------+---------+-- ...
 *
 *   an entry:
 *   0       4       4+D      4+2D
 *   +-------+-------+--------+
 *   | time  | level | enable |
 *   +-------+-------+--------+
 * </pre>
 */
final class SequenceFormat implements Format<Sequence> {
  private static final int MOST = 255;
  private static final int TIME = 0;
  private static final int LEVEL = 4;

  private final int drives;
  private final int driveBytes;
  private final StepFormat step;
  private final int countAt;
  private final int entriesAt;
  private final int entryLength;

  SequenceFormat(int drives, int watches) {
    this.drives = drives;
    this.driveBytes = Body.setSize(drives);
    this.step = new StepFormat(drives, watches);
    this.countAt = StepFormat.length(drives, watches);
    this.entriesAt = countAt + 1;
    this.entryLength = entryLength(drives);
  }

  static int mostEntries(int drives, int watches, int longestFrame) {
    int head = FrameLayout.SHORTEST + StepFormat.length(drives, watches) + 1;
    return Math.max(0, Math.min(MOST, (longestFrame - head) / entryLength(drives)));
  }

  private static int entryLength(int drives) {
    return LEVEL + 2 * Body.setSize(drives);
  }

  @Override
  public int length(Sequence sequence) {
    return entriesAt + entryLength * sequence.entries().size();
  }

  @Override
  public int length(Body body) {
    return entriesAt + (body.length() > countAt ? entryLength * body.u8(countAt) : 0);
  }

  @Override
  public void put(Sequence sequence, Body body) {
    step.put(sequence.step(), body);
    body.putU8(countAt, sequence.entries().size());
    int at = entriesAt;
    for (Switching entry : sequence.entries()) {
      body.putU32(at + TIME, entry.atUs());
      body.putSet(at + LEVEL, drives, entry.level());
      body.putSet(at + LEVEL + driveBytes, drives, entry.enable());
      at += entryLength;
    }
  }

  @Override
  public Sequence get(Body body) {
    int count = body.u8(countAt);
    List<Switching> entries = new ArrayList<>(count);
    for (int i = 0; i < count; i++) {
      int at = entriesAt + i * entryLength;
      entries.add(
          new Switching(
              body.u32(at + TIME),
              body.set(at + LEVEL, driveBytes),
              body.set(at + LEVEL + driveBytes, driveBytes)));
    }
    return new Sequence(step.get(body), entries);
  }

  @Override
  public int unknownBits(Body body) {
    return step.unknownBits(body);
  }

  @Override
  public int badField(Sequence sequence) {
    int bad = step.badField(sequence.step());
    if (bad != NO_FIELD) {
      return bad;
    }
    return sequence.entries().isEmpty() ? countAt : badEntry(sequence);
  }

  private int badEntry(Sequence sequence) {
    long beforeUs = 0;
    int at = entriesAt;
    for (Switching entry : sequence.entries()) {
      if (entry.atUs() <= beforeUs || entry.atUs() >= sequence.step().watchUs()) {
        return at + TIME;
      } else if (entry.level().length() > drives) {
        return at + LEVEL;
      } else if (entry.enable().length() > drives) {
        return at + LEVEL + driveBytes;
      }
      beforeUs = entry.atUs();
      at += entryLength;
    }
    return NO_FIELD;
  }
}
