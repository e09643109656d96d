package cardproof.cli;

import cardproof.files.draft.PlanDraft;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Supplier;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Writes a first plan for a card. */
@Command(
    name = "plan",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description =
        "Writes a first plan that fits a card: at rest, line by line, single lines together, load"
            + " pulses, random words. Without --card it asks at the terminal.",
    footerHeading = "%nExample:%n",
    footer = "  cardproof new plan --card sum/card.yaml")
final class NewPlanCommand implements Callable<Integer> {
  private static final String STANDARD_CARD = "card.yaml";
  private static final String STANDARD_NAME = "bring-up.yaml";

  private final Supplier<Optional<Answers>> terminal;

  @Spec private CommandSpec spec;

  @Option(names = "--card", paramLabel = "FILE", description = "the card's file")
  private Optional<Path> card = Optional.empty();

  @Option(names = "--title", paramLabel = "TEXT", description = "what the plan is about")
  private Optional<String> title = Optional.empty();

  @Option(
      names = "--to",
      paramLabel = "FILE",
      description = "where it goes (default: bring-up.yaml beside the card)")
  private Optional<Path> to = Optional.empty();

  NewPlanCommand() {
    this(Answers::atTerminal);
  }

  NewPlanCommand(Supplier<Optional<Answers>> terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() {
    Screen screen = Screen.of(spec.commandLine());
    to.ifPresent(NewFile::refuseIfThere);
    if (card.isEmpty()) {
      Answers answers = terminal.get().orElseThrow(NewCardCommand::nobodyToAsk);
      ask(new Questions(answers, screen.err()));
    }
    Path cardFile = card.orElseThrow();
    Path file = to.orElse(cardFile.resolveSibling(STANDARD_NAME));
    NewFile.refuseIfThere(file);
    String about = title.isPresent() ? title.get() : PlanDraft.titleFor(cardFile);
    PlanDraft plan = PlanDraft.of(file, cardFile, about);
    NewFile.write(file, plan.text());
    screen.out().println("Written: " + file);
    screen.out().flush();
    plan.finds().ifPresent(screen.err()::println);
    screen.err().println("Next: cardproof check " + file + ", then cardproof run " + file);
    return ExitCode.PASSED;
  }

  private void ask(Questions questions) {
    Path cardFile =
        questions.ask(
            "The card's file",
            STANDARD_CARD,
            answer -> {
              PlanDraft.titleFor(Path.of(answer));
              return Path.of(answer);
            });
    card = Optional.of(cardFile);
    if (to.isEmpty()) {
      to =
          Optional.of(
              questions.ask(
                  "The plan's file",
                  cardFile.resolveSibling(STANDARD_NAME).toString(),
                  answer -> {
                    NewFile.refuseIfThere(Path.of(answer));
                    return Path.of(answer);
                  }));
    }
    if (title.isEmpty()) {
      title =
          Optional.of(
              questions.ask(
                  "What it is about",
                  PlanDraft.titleFor(cardFile),
                  answer -> {
                    PlanDraft.of(to.orElseThrow(), cardFile, answer);
                    return answer;
                  }));
    }
  }
}
