package cardproof.files;

import cardproof.card.Card;
import cardproof.plan.PlanCheck;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * A first plan for a card, written from what its file says. Every step is tried on the readers and
 * on the check of all vectors before it goes in; one that the card does not bear is left as a
 * comment that says why.
 */
public final class PlanDraft {
  private static final String HEAD =
      """
      # A first plan for card %s, to be changed. 'cardproof check' lists what it would drive,
      # 'cardproof run' goes through it; what comes back is judged by the card's 'behaviour'.
      plan: %s
      card: %s

      steps:
      """;

  private final Path file;
  private final Card card;
  private final String head;

  /** The same with the card's whole path, since the plan's folder may not be there yet. */
  private final String trial;

  private PlanDraft(Path file, Path cardFile, Card card, String title) {
    this.file = file;
    this.card = card;
    this.head = head(title, from(cardFile));
    this.trial = head(title, cardFile.toAbsolutePath().toString());
  }

  private String head(String title, String cardName) {
    return String.format(HEAD, card.name(), CardText.scalar(title), CardText.scalar(cardName));
  }

  /**
   * The text of a plan that {@link PlanFile} reads.
   *
   * @param file where the plan is going to lie
   * @throws RefusedException where the card's file cannot be used, or the title
   */
  public static String text(Path file, Path cardFile, String title) {
    Card card = CardFile.read(cardFile).value();
    return new PlanDraft(file, cardFile, card, title).text();
  }

  /** The title that a plan has where nobody says another. */
  public static String titleFor(Path cardFile) {
    return "bring-up of card " + CardFile.read(cardFile).value().name();
  }

  /** The card's file, as it is named from where the plan lies. */
  private String from(Path cardFile) {
    Path folder = file.toAbsolutePath().normalize().getParent();
    Path target = cardFile.toAbsolutePath().normalize();
    boolean oneRoot = folder.getRoot().equals(target.getRoot());
    return (oneRoot ? folder.relativize(target) : target).toString().replace('\\', '/');
  }

  private String text() {
    StringBuilder text = new StringBuilder(head);
    List<String> silent = new ArrayList<>();
    for (int b = 0; b < card.buses().size(); b++) {
      boolean predicted = card.behaviour().isPresent() && card.behaviour().get().predicts(b);
      if (card.buses().get(b).role().watched() && !predicted) {
        silent.add(card.buses().get(b).name());
      }
    }
    if (!silent.isEmpty()) {
      text.append(
          "  # The card's file does not say what "
              + String.join(", ", silent)
              + " should do: add expect to the steps, such as\n"
              + "  # expect: {"
              + silent.get(0)
              + ": 0}, or nothing is judged there.\n\n");
    }
    boolean first = true;
    for (PlanSteps.Step step : new PlanSteps(card).all()) {
      text.append(first ? "" : "\n").append(tried(step, first));
      first = false;
    }
    return text.toString();
  }

  /** The step, or as a comment what stands against it; the first one has to do. */
  private String tried(PlanSteps.Step step, boolean mustDo) {
    String text = comment(step.about()) + step.text();
    try {
      PlanCheck.of(PlanFile.read(file, trial + text).value(), done -> {});
      return text;
    } catch (RefusedException refused) {
      if (mustDo) {
        throw refused;
      }
      Problem problem = refused.problems().get(0);
      String why = "Left out, because " + problem.found() + ":";
      return comment(List.of(why)) + comment(step.text().lines().map(String::strip).toList());
    }
  }

  private static String comment(List<String> lines) {
    StringBuilder text = new StringBuilder();
    lines.forEach(line -> text.append("  # ").append(line).append('\n'));
    return text.toString();
  }
}
