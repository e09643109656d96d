package cardproof.timing;

import cardproof.log.BenchLog;
import cardproof.log.LineName;
import cardproof.log.RunTransitions;
import java.util.Arrays;
import java.util.function.Consumer;

/** Reads the settle times of a run with what they belong to, one line and direction at a time. */
public final class RunSettles {
  private RunSettles() {}

  /**
   * Hands on each watched line and direction that has times, lines in the card's order, falling
   * before rising. Memory is 25 bytes a time of one line and direction, and 8 a vector of the run.
   */
  public static void forEach(BenchLog log, long run, Consumer<LineSettles> consumer) {
    RunTransitions transitions = log.transitions(run);
    for (LineName line : log.lines(run)) {
      if (line.watched()) {
        for (boolean endsHigh : new boolean[] {false, true}) {
          LineSettles settles = read(log, run, line, endsHigh, transitions);
          if (settles.count() > 0) {
            consumer.accept(settles);
          }
        }
      }
    }
  }

  /** Whether a card that was called settled moved later, so that no time of the run counts. */
  public static boolean isVoid(BenchLog log, long run) {
    return log.supersededCount(run) > 0
        || Silence.of(log, run).filter(longest -> longest.asLong() > 0).isPresent();
  }

  private static LineSettles read(
      BenchLog log, long run, LineName line, boolean endsHigh, RunTransitions transitions) {
    Collected collected = new Collected();
    log.forEachSettle(run, line.line(), endsHigh, collected::add);
    for (int i = 0; i < collected.count; i++) {
      collected.transitions[i] = transitions.of(collected.vectors[i]);
    }
    return collected.done(line, endsHigh);
  }

  /** Times while they are read. */
  private static final class Collected {
    private int count;
    private long[] vectors = new long[64];
    private long[] transitions = new long[64];
    private long[] settleUs = new long[64];
    private boolean[] censored = new boolean[64];

    void add(long vector, long lastUs, boolean isCensored) {
      if (count == vectors.length) {
        int more = count + count / 2;
        vectors = Arrays.copyOf(vectors, more);
        transitions = Arrays.copyOf(transitions, more);
        settleUs = Arrays.copyOf(settleUs, more);
        censored = Arrays.copyOf(censored, more);
      }
      vectors[count] = vector;
      settleUs[count] = lastUs;
      censored[count++] = isCensored;
    }

    LineSettles done(LineName line, boolean endsHigh) {
      return new LineSettles(line, endsHigh, count, vectors, transitions, settleUs, censored);
    }
  }
}
