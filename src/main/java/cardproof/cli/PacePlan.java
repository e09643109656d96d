package cardproof.cli;

import cardproof.card.Card;
import cardproof.log.BenchLog;
import cardproof.log.LineName;
import cardproof.log.VectorRecord;
import cardproof.text.Micros;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import cardproof.timing.pace.PacedTransition;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.LongUnaryOperator;

/**
 * A plan that goes through chosen transitions again and again. It is a file like any other, so that
 * its runs can be looked at and made again.
 */
final class PacePlan {
  private static final String FIRST_LINE =
      "# Made by 'cardproof pace', and made anew each time: what is changed here is lost.";

  private final Card card;
  private final BenchLog log;
  private final LongUnaryOperator runUp;

  /**
   * @param runUp of a vector the first one from which what the card keeps is known when it comes
   */
  PacePlan(Card card, BenchLog log, LongUnaryOperator runUp) {
    this.card = card;
    this.log = log;
    this.runUp = runUp;
  }

  /**
   * Writes the plan.
   *
   * @param dwellUs when each transition is sampled; 0 where it is watched until it has settled
   */
  void write(Path file, String unit, List<PacedTransition> chosen, int repeats, long dwellUs) {
    refuseAnothers(file, "plan: pace of " + card.name() + " unit " + unit + "\n");
    List<String> lines = new ArrayList<>();
    lines.add(FIRST_LINE);
    lines.add("plan: pace of " + card.name() + " unit " + unit);
    Path cardFile = Path.of(card.at().file()).toAbsolutePath();
    lines.add(
        "card: "
            + quoted(
                file.toAbsolutePath()
                    .getParent()
                    .relativize(cardFile)
                    .toString()
                    .replace('\\', '/')));
    lines.add("steps:");
    lines.add("  - repeat: " + repeats);
    lines.add("    steps:");
    List<PaceStep> first = new ArrayList<>();
    PaceStep before = null;
    int place = 1;
    for (PacedTransition transition : chosen) {
      List<PaceStep> way = way(place++ + " " + transition.line().label(), transition);
      if (before == null) {
        first = way;
      } else if (card.hasState()) {
        before.waysTo(way.get(0)).forEach(step -> lines.addAll(step.yaml()));
      }
      for (PaceStep step : way.subList(0, way.size() - 1)) {
        lines.addAll(step.yaml());
      }
      before = way.get(way.size() - 1);
      lines.addAll(before.yaml());
      lines.addAll(dwell(dwellUs));
    }
    if (card.hasState() && before != null) {
      before.waysTo(first.get(0)).forEach(step -> lines.addAll(step.yaml()));
    }
    try {
      Files.writeString(file, String.join("\n", lines) + "\n", StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new RefusedException(
          new Problem(
              file.toString(),
              "the plan of the transitions cannot be written: " + e.getMessage(),
              "a folder that this user may write to",
              ""));
    }
  }

  private static void refuseAnothers(Path file, String second) {
    try {
      if (Files.exists(file) && !Files.readString(file).startsWith(FIRST_LINE + "\n" + second)) {
        throw new RefusedException(
            new Problem(
                file.toString(),
                "this plan was not made by 'cardproof pace' for this card and unit",
                "a name that is free for the plan of the transitions",
                "Rename it"));
      }
    } catch (IOException e) {
      throw new RefusedException(
          new Problem(file.toString(), "cannot be read: " + e.getMessage(), "", ""));
    }
  }

  /** A dwell has to lie within what is watched, with a quiet window after it. */
  private List<String> dwell(long dwellUs) {
    if (dwellUs == 0) {
      return List.of();
    }
    long watchUs = dwellUs + 2 * card.limits().quietUs();
    String dwell = "        dwell: " + dwellUs + " us";
    return watchUs > card.limits().watchUs()
        ? List.of(dwell, "        watch: " + watchUs + " us")
        : List.of(dwell);
  }

  /** From where what the card keeps is known up to the transition itself, the last. */
  private List<PaceStep> way(String name, PacedTransition transition) {
    long vector = transition.vector();
    long from = Math.max(0, runUp.applyAsLong(Math.max(0, vector - 1)));
    List<LineName> lines = log.lines(transition.run());
    boolean expecting = card.behaviour().isEmpty();
    List<PaceStep> way = new ArrayList<>();
    for (long v = from; v <= vector; v++) {
      VectorRecord record = log.vector(transition.run(), v).orElseThrow();
      way.add(
          PaceStep.of((v < vector ? "before " : "transition ") + name, lines, record, expecting));
    }
    return way;
  }

  static String quoted(String text) {
    return "'" + text.replace("'", "''") + "'";
  }

  /** How a plan is told of. */
  static String words(Path file, int transitions, int repeats, long dwellUs) {
    return Plural.of(transitions, "transition")
        + ", "
        + repeats
        + " times each"
        + (dwellUs == 0 ? "" : ", sampled at " + Micros.text(dwellUs))
        + ": "
        + file;
  }
}
