package cardproof.cli;

import cardproof.text.Micros;

/**
 * How times of a whole plan are written: {@code 34.72 s}, {@code 12 min 5 s}, {@code 3 h 20 min}.
 */
final class LongTime {
  private static final long US_PER_S = 1_000_000;

  private LongTime() {}

  static String text(long us) {
    long seconds = us / US_PER_S;
    if (seconds < 120) {
      return Micros.text(us);
    }
    if (seconds < 7_200) {
      return seconds / 60 + " min " + seconds % 60 + " s";
    }
    return seconds / 3_600 + " h " + seconds % 3_600 / 60 + " min";
  }
}
