package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.timing.intermittent.FailureHistory;
import cardproof.timing.intermittent.VectorFailures;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** What may be said of failures that come and go, and no more. */
final class IntermittentWords {
  /** Below this, gaps as uneven as seen are not put down to chance; common practice. */
  private static final double UNLIKELY = 0.05;

  private static final int NAMED = 5;

  private IntermittentWords() {}

  /** How many failed, how many may, and which. */
  static List<String> of(FailureHistory history, BenchLog log) {
    List<String> lines = new ArrayList<>();
    if (history.judged() > 0) {
      lines.add(counts(history));
    }
    if (history.bunched() < UNLIKELY) {
      lines.add(
          "They come in bunches (by chance so uneven in "
              + percent(history.bunched())
              + " of cases): look for what warms up, shakes or is loose, and count power cycles"
              + " rather than vectors.");
    }
    which(history, log, lines);
    return lines;
  }

  private static String counts(FailureHistory history) {
    String vectors =
        String.format(
            Locale.ROOT,
            "%s of %s in %s failed%s: at most %s fail, at 95 %% confidence",
            history.failed() == 0 ? "None" : Integer.toString(history.failed()),
            Plural.of(history.judged(), "vector"),
            Plural.of(history.runs(), "run"),
            history.failed() == 0
                ? ""
                : " (" + percent((double) history.failed() / history.judged()) + ")",
            percent(history.mostOfVectors()));
    if (history.sessions() < 2) {
      return vectors + ", of the vectors in this session.";
    }
    return String.format(
        Locale.ROOT,
        "%s; in %s of %d power cycles: at most %s of them.",
        vectors,
        history.failedSessions() == 0 ? "none" : Integer.toString(history.failedSessions()),
        history.sessions(),
        percent(history.mostOfSessions()));
  }

  private static void which(FailureHistory history, BenchLog log, List<String> lines) {
    TransitionWords words = new TransitionWords(log);
    long standing = history.vectors().stream().filter(v -> !v.comesAndGoes()).count();
    List<VectorFailures> coming =
        history.vectors().stream().filter(VectorFailures::comesAndGoes).toList();
    for (VectorFailures vector : coming.subList(0, Math.min(NAMED, coming.size()))) {
      lines.add(
          String.format(
              Locale.ROOT,
              "  vector %d at %s failed %d times of %d (last in run %d)",
              vector.vector() + 1,
              words.place(vector.run(), vector.vector()),
              vector.failed(),
              vector.judged(),
              vector.run()));
    }
    if (coming.size() > NAMED) {
      lines.add("  and " + (coming.size() - NAMED) + " more that failed now and then");
    }
    if (standing > 0 && history.runs() > 1) {
      lines.add(
          Plural.of(standing, "vector")
              + " failed every time: that fault stands, and does not come and go; "
              + (standing == 1 ? "it counts" : "they count")
              + " in nothing above.");
    }
  }

  /**
   * Whether a card that failed before a rework may be called repaired: by the vectors that failed
   * then.
   *
   * @param before with at least one failure
   * @param after since the rework
   */
  static String repaired(FailureHistory before, FailureHistory after) {
    if (!after.vectors().isEmpty() && after.failed() == 0) {
      return "Not repaired: what failed now and then before fails every time now.";
    }
    if (after.failed() > 0) {
      return "Not repaired: "
          + Plural.of(after.failed(), "vector")
          + " of "
          + after.judged()
          + " failed since.";
    }
    boolean bunched = before.bunched() < UNLIKELY && before.sessions() >= 2;
    int failed = bunched ? before.failedSessions() : before.failed();
    int judged = bunched ? before.sessions() : before.judged();
    int clean = bunched ? after.sessions() : after.judged();
    String noun = bunched ? "power cycle" : "vector";
    long needed = failed >= judged ? 1 : FailureHistory.cleanNeeded(failed, judged);
    String rate = failed + " of " + Plural.of(judged, noun);
    return clean >= needed
        ? String.format(
            Locale.ROOT,
            "Repaired, at 95 %% confidence: %s passed since, and at the rate before (%s) %d were"
                + " needed to say so.",
            Plural.of(clean, noun),
            rate,
            needed)
        : String.format(
            Locale.ROOT,
            "Not to be called repaired yet: %s passed since; at the rate before (%s) %d are needed.",
            Plural.of(clean, noun),
            rate,
            needed);
  }

  /** Two digits that count: {@code 0.11 %}, {@code 26 %}. */
  static String percent(double share) {
    double percent = 100 * share;
    if (percent >= 10) {
      return String.format(Locale.ROOT, "%.0f %%", percent);
    }
    return String.format(Locale.ROOT, percent >= 1 ? "%.1f %%" : "%.2g %%", percent);
  }
}
