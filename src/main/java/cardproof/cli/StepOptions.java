package cardproof.cli;

import cardproof.log.RunAsked;
import cardproof.plan.Plan;
import cardproof.plan.StepFilter;
import cardproof.text.Micros;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.util.List;
import java.util.Locale;
import picocli.CommandLine.Option;

/** Which steps of a plan are meant, and that a very long plan is. */
final class StepOptions {
  private static final long MOST_VECTORS = 100_000_000;

  @Option(
      names = "--only",
      paramLabel = "TEXT",
      description =
          "only steps whose title holds this text, or with the tag #TEXT; may be repeated")
  private List<String> only = List.of();

  @Option(
      names = "--skip",
      paramLabel = "TEXT",
      description = "no steps whose title holds this text, or with the tag #TEXT; may be repeated")
  private List<String> skip = List.of();

  @Option(names = "--large", description = "accept a plan of more than 100,000,000 vectors")
  private boolean large;

  List<String> only() {
    return only;
  }

  List<String> skip() {
    return skip;
  }

  /** The steps are those of the run to be continued. */
  void asRecorded(RunAsked asked) {
    only = asked.only();
    skip = asked.skip();
  }

  /** Whether some steps may be left out. */
  boolean partial() {
    return !only.isEmpty() || !skip.isEmpty();
  }

  /**
   * The plan with only the steps that are meant.
   *
   * @throws RefusedException when a word chooses nothing, or the plan is too long and nobody said
   *     that it may be
   */
  Plan of(Plan plan) {
    Plan chosen = partial() ? plan.only(new StepFilter(only, skip)) : plan;
    if (!large && chosen.vectorCount() > MOST_VECTORS) {
      throw new RefusedException(
          Problem.at(
              plan.at(),
              "this plan stands for "
                  + count(chosen.vectorCount())
                  + " vectors, which at "
                  + Micros.text(plan.card().limits().quietUs())
                  + " or more each take at least "
                  + time(chosen.vectorCount(), plan.card().limits().quietUs()),
              "at most 100,000,000 vectors",
              "Give --large if that is meant, or choose steps with --only and --skip"));
    }
    return chosen;
  }

  private static String count(long vectors) {
    return vectors == Long.MAX_VALUE
        ? "more than 9 x 10^18"
        : String.format(Locale.ROOT, "%,d", vectors);
  }

  private static String time(long vectors, long eachUs) {
    double days = (double) vectors * eachUs / 86_400e6;
    return days > 730
        ? String.format(Locale.ROOT, "%,.0f years", days / 365.25)
        : String.format(Locale.ROOT, "%,.0f days", days);
  }
}
