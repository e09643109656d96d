package cardproof.timing;

import cardproof.log.BenchLog;
import cardproof.log.LineName;
import cardproof.log.RunTransitions;
import cardproof.log.SettleSink;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;

/** Reads the settle times of a run with what they belong to, one line and direction at a time. */
public final class RunSettles {
  private RunSettles() {}

  /**
   * Hands on each watched line and direction that has times, lines in the card's order, falling
   * before rising. Memory is 25 bytes a time of one line and direction, and 8 a vector of the run.
   */
  public static void forEach(BenchLog log, long run, Consumer<LineSettles> consumer) {
    Collected collected = new Collected(log.lines(run), log.transitions(run), consumer);
    log.forEachSettle(run, collected);
    collected.handOver();
  }

  /** Whether a card that was called settled moved later, so that no time of the run counts. */
  public static boolean isVoid(BenchLog log, long run) {
    return log.settledTooEarly(run);
  }

  /** Times of one line and direction while they are read; handed over when the next one begins. */
  private static final class Collected implements SettleSink {
    private final List<LineName> lines;
    private final RunTransitions of;
    private final Consumer<LineSettles> consumer;
    private int line;
    private boolean endsHigh;
    private int count;
    private long[] vectors = new long[64];
    private long[] transitions = new long[64];
    private long[] settleUs = new long[64];
    private boolean[] censored = new boolean[64];

    Collected(List<LineName> lines, RunTransitions of, Consumer<LineSettles> consumer) {
      this.lines = lines;
      this.of = of;
      this.consumer = consumer;
    }

    @Override
    public void accept(
        int ofLine, boolean ofEndsHigh, long vector, long lastUs, boolean isCensored) {
      if (ofLine != line || ofEndsHigh != endsHigh) {
        handOver();
        line = ofLine;
        endsHigh = ofEndsHigh;
      }
      if (count == vectors.length) {
        int more = count + count / 2;
        vectors = Arrays.copyOf(vectors, more);
        transitions = Arrays.copyOf(transitions, more);
        settleUs = Arrays.copyOf(settleUs, more);
        censored = Arrays.copyOf(censored, more);
      }
      vectors[count] = vector;
      transitions[count] = of.of(vector);
      settleUs[count] = lastUs;
      censored[count++] = isCensored;
    }

    void handOver() {
      if (count > 0 && lines.get(line).watched()) {
        consumer.accept(
            new LineSettles(
                lines.get(line),
                endsHigh,
                Arrays.copyOf(vectors, count),
                Arrays.copyOf(transitions, count),
                Arrays.copyOf(settleUs, count),
                Arrays.copyOf(censored, count)));
      }
      count = 0;
    }
  }
}
