package cardproof.cli;

import cardproof.files.CardDraft;
import cardproof.files.CardTopic;
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

  @Spec private CommandSpec spec;

  @Option(names = "--name", paramLabel = "NAME", description = "the card's name")
  private List<String> name = List.of();

  @Option(names = "--title", paramLabel = "TEXT", description = "what it is, in one line")
  private List<String> title = List.of();

  @Option(names = "--input", paramLabel = "BUS", description = "lines driven into the card")
  private List<String> input = List.of();

  @Option(names = "--output", paramLabel = "BUS", description = "lines that the card drives")
  private List<String> output = List.of();

  @Option(names = "--shared", paramLabel = "BUS", description = "lines that both may drive")
  private List<String> shared = List.of();

  @Option(
      names = "--state",
      paramLabel = "STATE",
      description = "what the card keeps: NAME[:WIDTH][=POWER-ON], such as R:12 or R:12=0")
  private List<String> state = List.of();

  @Option(
      names = "--next",
      paramLabel = "RULE",
      description = "next value of a state, such as 'R = LD ? D : R'")
  private List<String> next = List.of();

  @Option(
      names = "--behaviour",
      paramLabel = "RULE",
      description = "what the card puts on an output, such as 'S = A + B'")
  private List<String> behaviour = List.of();

  @Option(names = "--voltage", paramLabel = "V", description = "of the supply (default: 12 V)")
  private List<String> voltage = List.of();

  @Option(names = "--limit", paramLabel = "A", description = "most it should draw (default: 3 A)")
  private List<String> limit = List.of();

  @Option(names = "--operate", paramLabel = "TIME", description = "of a relay (default: 15 ms)")
  private List<String> operate = List.of();

  @Option(names = "--release", paramLabel = "TIME", description = "of a relay (default: 18 ms)")
  private List<String> release = List.of();

  @Option(names = "--bounce", paramLabel = "TIME", description = "of a relay (default: 8 ms)")
  private List<String> bounce = List.of();

  @Option(
      names = "--unseen-stages",
      paramLabel = "N",
      description = "most relays in series with no watched line between them (default: 1)")
  private List<String> unseenStages = List.of();

  @Option(
      names = "--settle",
      paramLabel = "TIME",
      description = "latest change of any output (default: from the relays)")
  private List<String> settle = List.of();

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
      for (String answer : options(topic)) {
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

  private List<String> options(CardTopic topic) {
    return switch (topic) {
      case NAME -> name;
      case TITLE -> title;
      case INPUT -> input;
      case OUTPUT -> output;
      case SHARED -> shared;
      case STATE -> state;
      case NEXT -> next;
      case BEHAVIOUR -> behaviour;
      case VOLTAGE -> voltage;
      case LIMIT -> limit;
      case OPERATE -> operate;
      case RELEASE -> release;
      case BOUNCE -> bounce;
      case UNSEEN_STAGES -> unseenStages;
      case SETTLE -> settle;
    };
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
