package cardproof.timing.history;

import cardproof.log.LineName;
import cardproof.timing.SettleRow;
import cardproof.timing.SettleTimes;
import java.util.Arrays;
import java.util.Optional;
import java.util.function.Consumer;

/**
 * What one line did in one direction over the runs read. Filled by {@link SettleHistory}, then read
 * only.
 */
public final class LineHistory {
  private final LineName line;
  private final boolean endsHigh;
  private final TransitionIds ids;
  private int[] idOf = new int[64];
  private long[] settleUs = new long[64];
  private int count;

  LineHistory(LineName line, boolean endsHigh, TransitionIds ids) {
    this.line = line;
    this.endsHigh = endsHigh;
    this.ids = ids;
  }

  /** The line as the newest run names it. */
  public LineName line() {
    return line;
  }

  /** Whether these are the changes that ended in 1. */
  public boolean endsHigh() {
    return endsHigh;
  }

  /** How many times there are, censored ones among them. */
  public int count() {
    return count;
  }

  /** Takes all of another, whose ids are these here. */
  void addAll(LineHistory other, int[] idHere) {
    idOf = Arrays.copyOf(idOf, count + other.count);
    settleUs = Arrays.copyOf(settleUs, count + other.count);
    System.arraycopy(other.settleUs, 0, settleUs, count, other.count);
    for (int i = 0; i < other.count; i++) {
      idOf[count + i] = idHere[other.idOf[i]];
    }
    count += other.count;
  }

  /** Censored times are kept as what is below 0. */
  void add(int id, long lastUs, boolean censored) {
    if (count == idOf.length) {
      int more = count + count / 2;
      idOf = Arrays.copyOf(idOf, more);
      settleUs = Arrays.copyOf(settleUs, more);
    }
    idOf[count] = id;
    settleUs[count++] = censored ? -1 - lastUs : lastUs;
  }

  /** All transitions together: a description of their mix, never a bound. */
  public SettleRow pooled() {
    double[] measuredUs = new double[count];
    int measured = 0;
    for (int i = 0; i < count; i++) {
      if (settleUs[i] >= 0) {
        measuredUs[measured++] = settleUs[i];
      }
    }
    return new SettleRow(line, endsHigh, summary(measuredUs, 0, measured), count - measured);
  }

  /**
   * Hands on each known transition in which the line moved, in the order in which they were met.
   */
  public void forEachTransition(Consumer<TransitionRow> consumer) {
    int[] end = new int[ids.count() + 1];
    for (int i = 0; i < count; i++) {
      end[idOf[i] + 1]++;
    }
    for (int id = 1; id < end.length; id++) {
      end[id] += end[id - 1];
    }
    int[] start = end.clone();
    double[] sorted = new double[count];
    int[] next = Arrays.copyOf(start, ids.count());
    int[] censored = new int[ids.count()];
    for (int i = 0; i < count; i++) {
      int id = idOf[i];
      if (settleUs[i] < 0) {
        censored[id]++;
      } else {
        sorted[next[id]++] = settleUs[i];
      }
    }
    for (int id = 1; id < ids.count(); id++) {
      int measured = next[id] - start[id];
      if (measured + censored[id] > 0) {
        consumer.accept(
            new TransitionRow(
                ids.name(id),
                ids.run(id),
                ids.vector(id),
                summary(sorted, start[id], measured),
                censored[id]));
      }
    }
  }

  private static Optional<SettleTimes> summary(double[] valuesUs, int from, int measured) {
    return measured == 0
        ? Optional.empty()
        : Optional.of(SettleTimes.of(valuesUs, from, from + measured));
  }
}
