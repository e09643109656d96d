package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.FixtureUsed;
import cardproof.text.Micros;
import java.util.Locale;

/**
 * What of a fixture settle times hang on. Times of two that are unlike are not held against each
 * other: their drivers have delays, and their clocks errors, of their own.
 *
 * @param board name of its profile
 * @param boardId as it answered the hello
 * @param samplingNs its sampling period
 */
record UsedFixture(String board, long boardId, long samplingNs) {
  private static final long NS_PER_US = 1_000;

  static UsedFixture of(BenchLog log, long run) {
    FixtureUsed used = log.run(run).orElseThrow().start().fixture();
    return new UsedFixture(used.board(), used.boardId(), used.samplingNs());
  }

  @Override
  public String toString() {
    return String.format(
        Locale.ROOT,
        "%s %016x, sampling every %s",
        board,
        boardId,
        Micros.text(Math.max(1, samplingNs / NS_PER_US)));
  }
}
