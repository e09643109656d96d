package cardproof.sim;

import cardproof.link.MovedWatch;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;

/**
 * What the watches did, counted as {@code firmware-notes/protocol.md}, section 6, says: changes and
 * moves of each in a step, the longest silence, what came close to the dwell sample, and what
 * stirred between steps. Knows neither levels nor when a step ends. Times in nanoseconds.
 */
final class Observer {
  static final int NONE = -1;

  private static final long APERTURE_NS = 1_000_000;
  private static final long LONG_AGO = Long.MIN_VALUE / 2;
  private static final int MOST_CHANGES = 65535;
  private static final int MOST_MOVES = 255;
  private static final int NS_PER_US = 1000;

  private final int watches;
  private final long[] firstNs;
  private final long[] lastNs;
  private final long[] latestNs;
  private final int[] changes;
  private final int[] moves;
  private final int[] changesBefore;
  private final int[] movesBefore;
  private final BitSet watched = new BitSet();
  private final BitSet moved = new BitSet();
  private final BitSet stirred = new BitSet();
  private final BitSet unstable = new BitSet();
  private int chatterMoves = Integer.MAX_VALUE;
  private int chatterChanges = Integer.MAX_VALUE;
  private long restNs;
  private boolean counting;
  private boolean inStep;
  private long startNs;
  private long lastChangeNs;
  private long lastEventNs;
  private long gapNs;
  private long dwellNs;
  private int chattering = NONE;

  Observer(int watches) {
    this.watches = watches;
    this.firstNs = new long[watches];
    this.lastNs = new long[watches];
    this.latestNs = new long[watches];
    this.changes = new int[watches];
    this.moves = new int[watches];
    this.changesBefore = new int[watches];
    this.movesBefore = new int[watches];
    Arrays.fill(latestNs, LONG_AGO);
  }

  /** Forgets what was seen and keeps to these rules from now on. */
  void open(BitSet watchedNow, int movesThatTrip, int changesThatTrip, long moveRestNs) {
    watched.clear();
    watched.or(watchedNow);
    chatterMoves = movesThatTrip;
    chatterChanges = changesThatTrip;
    restNs = moveRestNs;
    counting = false;
    inStep = false;
    moved.clear();
    stirred.clear();
    chattering = NONE;
  }

  void startStep(long nowNs) {
    inStep = true;
    counting = true;
    startNs = nowNs;
    lastChangeNs = nowNs;
    lastEventNs = nowNs;
    gapNs = 0;
    dwellNs = LONG_AGO;
    moved.clear();
    unstable.clear();
    Arrays.fill(changesBefore, 0);
    Arrays.fill(movesBefore, 0);
    Arrays.fill(latestNs, LONG_AGO);
  }

  /** An entry of a sequence was switched: silence, and chatter, count anew from here. */
  void switched(long nowNs) {
    lastEventNs = nowNs;
    for (int watch = moved.nextSetBit(0); watch >= 0; watch = moved.nextSetBit(watch + 1)) {
      changesBefore[watch] = changes[watch];
      movesBefore[watch] = moves[watch];
    }
  }

  boolean isWatched(int watch) {
    return watched.get(watch);
  }

  /** From now on changes are stirrings; they still count towards the chatter of the step before. */
  void endStep() {
    inStep = false;
    stirred.clear();
  }

  void changed(long nowNs, int watch) {
    if (!watched.get(watch)) {
      return;
    }
    latestNs[watch] = nowNs;
    if (counting) {
      count(nowNs, watch);
    }
    if (!inStep) {
      stirred.set(watch);
      return;
    }
    gapNs = Math.max(gapNs, nowNs - lastEventNs);
    lastChangeNs = nowNs;
    lastEventNs = nowNs;
    if (nowNs - dwellNs <= APERTURE_NS) {
      unstable.set(watch);
    }
  }

  private void count(long nowNs, int watch) {
    if (!moved.get(watch)) {
      moved.set(watch);
      firstNs[watch] = nowNs;
      changes[watch] = 0;
      moves[watch] = 1;
    } else if (nowNs - lastNs[watch] >= restNs) {
      moves[watch]++;
    }
    lastNs[watch] = nowNs;
    changes[watch]++;
    boolean trips =
        moves[watch] - movesBefore[watch] >= chatterMoves
            || changes[watch] - changesBefore[watch] >= chatterChanges;
    if (trips && chattering == NONE) {
      chattering = watch;
    }
  }

  /** The dwell sample is taken now, after the changes that it saw were told. */
  void dwell(long nowNs) {
    dwellNs = nowNs;
    for (int watch = 0; watch < watches; watch++) {
      if (nowNs - latestNs[watch] <= APERTURE_NS) {
        unstable.set(watch);
      }
    }
  }

  /**
   * The first watch that reached what trips, since {@link #open}; {@link #NONE} if there is none.
   */
  int chattering() {
    return chattering;
  }

  /** The last change in this step, or its start. */
  long lastChangeNs() {
    return lastChangeNs;
  }

  /** The last change, or switching of the drives, in this step. */
  long lastEventNs() {
    return lastEventNs;
  }

  /** Longest silence from start to the first change or between two. */
  long gapNs() {
    return gapNs;
  }

  /** Watches that changed in this step. Not to be changed. */
  BitSet moved() {
    return moved;
  }

  /** Watches that changed since the last step ended. Not to be changed. */
  BitSet stirred() {
    return stirred;
  }

  /** Watches that changed close to the dwell sample. Not to be changed. */
  BitSet unstable() {
    return unstable;
  }

  /** What each watch did that moved, in rising order. */
  List<MovedWatch> entries() {
    List<MovedWatch> entries = new ArrayList<>(moved.cardinality());
    for (int watch = moved.nextSetBit(0); watch >= 0; watch = moved.nextSetBit(watch + 1)) {
      entries.add(
          new MovedWatch(
              watch,
              (firstNs[watch] - startNs) / NS_PER_US,
              (lastNs[watch] - startNs) / NS_PER_US,
              Math.min(changes[watch], MOST_CHANGES),
              Math.min(moves[watch], MOST_MOVES)));
    }
    return entries;
  }
}
