package cardproof.files.draft;

import cardproof.card.Card;
import cardproof.files.CardFile;
import cardproof.files.PlanFile;
import cardproof.plan.GapKind;
import cardproof.plan.Plan;
import cardproof.plan.PlanCheck;
import cardproof.plan.sight.FaultSearch;
import cardproof.plan.sight.Unseeable;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * A first plan for a card, written from what its file says. Every step is tried on the readers and
 * on the check of all vectors before it goes in; one that the card does not bear is left as a
 * comment that says why. What the plan finds of faults of its driven lines is measured on the
 * card's behaviour, steps are added for what it misses, and its head says what is still missed.
 */
public final class PlanDraft {
  /** As much of a comment as goes into one line, or one long word. */
  private static final Pattern LINE = Pattern.compile("(.{1,95}|\\S+)(?:\\s|$)");

  private static final Set<GapKind> OF_OUTPUTS =
      EnumSet.of(GapKind.NEVER_EXPECTED_0, GapKind.NEVER_EXPECTED_1);

  private final Path file;
  private final Card card;
  private final DraftCard draft;
  private final String title;
  private final Path cardFile;
  private final StringBuilder steps = new StringBuilder();
  private Optional<Findings> findings = Optional.empty();

  private PlanDraft(Path file, Path cardFile, Card card, String title) {
    this.file = file;
    this.card = card;
    this.draft = new DraftCard(card);
    this.title = title;
    this.cardFile = cardFile;
  }

  /**
   * A plan that {@link PlanFile} reads.
   *
   * @param file where the plan is going to lie
   * @throws RefusedException where the card's file cannot be used, or the title
   */
  public static PlanDraft of(Path file, Path cardFile, String title) {
    PlanDraft plan = new PlanDraft(file, cardFile, CardFile.read(cardFile).value(), title);
    plan.write();
    return plan;
  }

  /** The title that a plan has where nobody says another. */
  public static String titleFor(Path cardFile) {
    return "bring-up of card " + CardFile.read(cardFile).value().name();
  }

  /** Its text, with comments. */
  public String text() {
    return head(from(cardFile)) + silent() + steps;
  }

  /**
   * In one sentence, what it finds; empty where the card's file does not say what the card does.
   */
  public Optional<String> finds() {
    return findings.map(Findings::summary);
  }

  private String head(String cardName) {
    StringBuilder head = new StringBuilder();
    head.append("# A first plan for card ").append(card.name());
    head.append(", to be changed. 'cardproof check' lists what it would drive,\n");
    head.append("# 'cardproof run' goes through it; what comes back is judged by the card's");
    head.append(" 'behaviour'.\n");
    findings.ifPresent(
        found -> {
          head.append("#\n");
          found.comment().forEach(line -> head.append("# ").append(line).append('\n'));
        });
    head.append("plan: ").append(CardText.scalar(title)).append('\n');
    head.append("card: ").append(CardText.scalar(cardName)).append("\n\nsteps:\n");
    return head.toString();
  }

  /** The card's file, as it is named from where the plan lies. */
  private String from(Path target) {
    Path folder = file.toAbsolutePath().normalize().getParent();
    Path whole = target.toAbsolutePath().normalize();
    boolean oneRoot = folder.getRoot().equals(whole.getRoot());
    return (oneRoot ? folder.relativize(whole) : whole).toString().replace('\\', '/');
  }

  private String silent() {
    List<String> silent = new ArrayList<>();
    for (int b = 0; b < card.buses().size(); b++) {
      boolean predicted = card.behaviour().isPresent() && card.behaviour().get().predicts(b);
      if (card.buses().get(b).role().watched() && !predicted) {
        silent.add(card.buses().get(b).name());
      }
    }
    return silent.isEmpty()
        ? ""
        : "  # The card's file does not say what "
            + String.join(", ", silent)
            + " should do: add expect to the steps, such as\n"
            + "  # expect: {"
            + silent.get(0)
            + ": 0}, or nothing is judged there.\n\n";
  }

  private void write() {
    new PlanSteps(draft).all().forEach(this::add);
    if (draft.predictsAnything()) {
      goOn();
      complete();
    }
  }

  /** Adds the step by which a card with state shows most of what its outputs have not shown. */
  private void goOn() {
    long shown = unshown("");
    Optional<DraftStep> best = Optional.empty();
    for (DraftStep step : new CountSteps(draft, new StepWriter(draft)).candidates()) {
      long now = shown == 0 ? 0 : unshown("\n" + step.text());
      if (now < shown) {
        shown = now;
        best = Optional.of(step);
      }
    }
    best.ifPresent(this::add);
  }

  /** Levels of outputs that no vector asks for; as many as can be where a step cannot be. */
  private long unshown(String more) {
    try {
      return PlanCheck.of(read(more), done -> {}).gaps().stream()
          .filter(gap -> OF_OUTPUTS.contains(gap.kind()))
          .mapToLong(gap -> Long.bitCount(gap.bits()))
          .sum();
    } catch (RefusedException unbearable) {
      return Long.MAX_VALUE;
    }
  }

  /** Adds steps for what those so far do not find, and says what is found then. */
  private void complete() {
    FaultSearch found = new FaultSearch(card);
    found.takeRest(read(""));
    Unseeable unseeable = Unseeable.among(card, found.left());
    found.leaveOut(unseeable.proved());
    FaultSearch search = found.copy();
    StepWriter writer = new StepWriter(draft);
    WideSteps wide = new WideSteps(draft, writer, read(""));
    wide.all().forEach(this::add);
    wide.patterns().forEach(search::take);
    MissingWords words = new MissingWords(draft, writer, search);
    words.all(List.copyOf(unseeable.witnesses().values())).forEach(this::add);
    found.takeRest(read("")); // the steps as they came out, and not as they were meant
    findings =
        Optional.of(new Findings(found.all(), unseeable.proved(), found.left(), words.tried()));
  }

  /** With the card's whole path, since the plan's folder may not be there yet. */
  private Plan read(String more) {
    return PlanFile.read(file, head(cardFile.toAbsolutePath().toString()) + steps + more).value();
  }

  /** The step, or as a comment what stands against it; the first one has to do. */
  private void add(DraftStep step) {
    String text = comment(step.about()) + step.text();
    String gap = steps.isEmpty() ? "" : "\n";
    try {
      PlanCheck.of(read(gap + text), done -> {});
      steps.append(gap).append(text);
    } catch (RefusedException refused) {
      if (steps.isEmpty()) {
        throw refused;
      }
      Problem problem = refused.problems().get(0);
      String why = "Left out, because " + problem.found() + ":";
      steps.append(gap).append(comment(List.of(why)));
      steps.append(comment(step.text().lines().map(String::strip).toList()));
    }
  }

  private static String comment(List<String> lines) {
    StringBuilder text = new StringBuilder();
    lines.stream()
        .flatMap(line -> LINE.matcher(line).results().map(found -> found.group(1)))
        .forEach(line -> text.append("  # ").append(line).append('\n'));
    return text.toString();
  }
}
