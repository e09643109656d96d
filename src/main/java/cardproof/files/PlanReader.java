package cardproof.files;

import cardproof.card.Card;
import cardproof.plan.PatternStep;
import cardproof.plan.Plan;
import cardproof.plan.RepeatStep;
import cardproof.plan.Row;
import cardproof.plan.Step;
import cardproof.plan.Timing;
import cardproof.text.RefusedException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** From a tree to a plan, its card included. */
final class PlanReader {
  static final List<String> KEYS =
      List.of("plan", "card", "settle", "quiet", "watch", "include", "set", "procedures", "steps");

  private final Path file;
  private final Problems problems;
  private final List<Path> sources = new ArrayList<>();

  PlanReader(Path file, Problems problems) {
    this.file = file;
    this.problems = problems;
    sources.add(file);
  }

  /** The plan, then its card. */
  List<Path> sources() {
    return List.copyOf(sources);
  }

  /**
   * The plan; where anything is wrong with it, {@code problems} says so and it must not be used.
   */
  Optional<Plan> read(Node root) {
    return Fields.of(root, "the plan", KEYS, problems).flatMap(this::plan);
  }

  private Optional<Plan> plan(Fields fields) {
    Optional<String> title =
        fields
            .require("plan", "a title, such as plan: bring-up of a sum card")
            .flatMap(node -> new Texts(problems).title(node, "plan"));
    Optional<Card> card =
        fields.require("card", "its card's file, such as card: card.yaml").flatMap(this::card);
    TimingReader timings = new TimingReader(card, problems);
    Timing timing = timings.read(fields, timings.ofCard());
    Library library = new LibraryReader(file, card, sources, problems).read(fields);
    PlanNames names = new PlanNames(card, library.setNames(), problems);
    StepsReader reader = new StepsReader(names, library, timing, problems);
    Optional<List<Step>> steps =
        fields.require("steps", "steps: with a list of steps below it").map(reader::read);
    neverCalled(library, reader.calls());
    if (title.isEmpty() || card.isEmpty() || steps.isEmpty()) {
      return Optional.empty();
    }
    warnOfNothingExpected(card.get(), steps.get());
    return Optional.of(new Plan(title.get(), card.get(), steps.get(), fields.at()));
  }

  /** What nobody calls is looked through as far as that can be done without arguments. */
  private void neverCalled(Library library, CallReader calls) {
    for (Procedure procedure : library.neverCalled()) {
      if (procedure.at().file().equals(file.toString())) {
        problems.warn(
            procedure.at(),
            "procedure '" + procedure.name() + "' is never called",
            "",
            "Take it out, or call it in a step");
      }
      if (procedure.needsNothing()) {
        calls.tryOut(procedure);
      }
    }
  }

  private Optional<Card> card(Node node) {
    String wanted = "the card's file, such as card.yaml";
    Optional<Path> found =
        new Texts(problems)
            .text(node, "card", wanted)
            .flatMap(
                name ->
                    OtherFile.named(
                        name,
                        file,
                        "the card's file, named from where the plan lies",
                        wanted,
                        problems));
    if (found.isEmpty()) {
      return Optional.empty();
    }
    Path path = found.get();
    try {
      Loaded<Card> loaded = CardFile.read(path);
      sources.addAll(loaded.sources());
      problems.adoptWarnings(loaded.warnings());
      return Optional.of(loaded.value());
    } catch (RefusedException refused) {
      sources.add(path);
      problems.adoptErrors(refused.problems());
      return Optional.empty();
    }
  }

  /** A plan that expects nothing passes whatever the card does. */
  private void warnOfNothingExpected(Card card, List<Step> steps) {
    if (card.behaviour().isPresent()) {
      return;
    }
    List<PatternStep> silent = patterns(steps).filter(PlanReader::expectsNothing).toList();
    if (!silent.isEmpty()) {
      problems.warn(
          silent.get(0).at(),
          "this step "
              + (silent.size() > 1 ? "and " + (silent.size() - 1) + " more expect" : "expects")
              + " nothing, and the card has no behaviour to go by",
          "",
          "Add expect, or give the card a 'behaviour'; nothing is judged until then");
    }
  }

  private static boolean expectsNothing(PatternStep step) {
    return step.expected().isEmpty() && step.rows().stream().allMatch(Row::expectsNothing);
  }

  private static Stream<PatternStep> patterns(List<Step> steps) {
    return steps.stream()
        .flatMap(
            step ->
                step instanceof RepeatStep repeat
                    ? patterns(repeat.steps())
                    : Stream.of((PatternStep) step));
  }
}
