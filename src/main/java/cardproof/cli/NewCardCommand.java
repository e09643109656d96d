package cardproof.cli;

import cardproof.files.draft.CardDraft;
import cardproof.files.draft.CardTopic;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Supplier;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Writes a new card's file, from answers at the terminal or from options alone. */
@Command(
    name = "card",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description = {
      "Writes a new card's file. Without --name it asks at the terminal for what no option says;"
          + " with --name it asks nothing.",
      "A bus is given as NAME[:WIDTH][@PINS], such as A:12, CI or D:8@J1.1-8."
    },
    footerHeading = "%nExample:%n",
    footer = {
      "  cardproof new card",
      "  cardproof new card --name sum --input A:12 --input B:12 --output S:12"
          + " --behaviour 'S = A + B'"
    })
final class NewCardCommand implements Callable<Integer> {
  private final Supplier<Optional<Answers>> terminal;

  private CommandSpec spec;

  @Option(
      names = "--dir",
      paramLabel = "DIR",
      description = "folder for card.yaml (default: one of the card's name)")
  private Optional<Path> folder = Optional.empty();

  NewCardCommand() {
    this(Answers::atTerminal);
  }

  NewCardCommand(Supplier<Optional<Answers>> terminal) {
    this.terminal = terminal;
  }

  @Spec
  void spec(CommandSpec given) {
    spec = given;
    CardOptions.addTo(given);
  }

  @Override
  public Integer call() {
    Screen screen = Screen.of(spec.commandLine());
    folder.ifPresent(dir -> NewFile.refuseIfThere(dir.resolve("card.yaml")));
    CardDraft draft = given();
    if (!draft.has(CardTopic.NAME)) {
      Answers answers = terminal.get().orElseThrow(NewCardCommand::nobodyToAsk);
      draft = new CardQuestions(new Questions(answers, screen.err())).ask(draft);
    }
    String name = draft.names(CardTopic.NAME).get(0);
    Path file = folder.orElse(Path.of(name)).resolve("card.yaml");
    NewFile.write(file, draft.text());
    screen.out().println("Written: " + file);
    screen.out().flush();
    List<String> guessed = draft.guessedPins();
    if (!guessed.isEmpty()) {
      screen
          .err()
          .println(
              "Pins were guessed for "
                  + String.join(", ", guessed)
                  + ": correct them in the file before wiring from the hook-up table.");
    }
    screen.err().println("Next: cardproof new plan --card " + file);
    return ExitCode.PASSED;
  }

  /** All that options say; what is wrong with any of them is said in one go. */
  private CardDraft given() {
    CardDraft draft = CardDraft.empty();
    List<Problem> problems = new ArrayList<>();
    for (CardTopic topic : CardTopic.values()) {
      for (String answer : CardOptions.given(spec, topic)) {
        try {
          draft = draft.with(topic, answer);
        } catch (RefusedException refused) {
          refused.problems().stream()
              .map(p -> new Problem("--" + p.where(), p.found(), p.wanted(), p.next()))
              .forEach(problems::add);
        }
      }
    }
    if (!problems.isEmpty()) {
      throw new RefusedException(problems);
    }
    return draft;
  }

  static RefusedException nobodyToAsk() {
    return new RefusedException(
        new Problem(
            "new",
            "there is no terminal to ask at",
            "everything by options",
            "Begin with --name for a card, --card for a plan; --help shows the others"));
  }
}
