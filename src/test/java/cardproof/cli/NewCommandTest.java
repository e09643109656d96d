package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** From nothing to a passing run, by options and by answers. */
class NewCommandTest {
  @TempDir private Path folder;

  private static List<Object> card(Object... options) {
    return List.of(options);
  }

  /** Options of a card, and how many vectors its first plan has (counted by hand). */
  static Stream<List<Object>> cards() {
    return Stream.of(
        // rest 1, walking 12, LD 2, loads 36 and 60
        card(
            111,
            "--name",
            "latch",
            "--input",
            "D:12",
            "--input",
            "LD",
            "--output",
            "Q:12",
            "--state",
            "R:12"),
        // rest 1, walking 12 + 12, CI 2, random 100
        card(
            127,
            "--name",
            "sum",
            "--input",
            "A:12",
            "--input",
            "B:12",
            "--input",
            "CI",
            "--output",
            "S:12",
            "--output",
            "CO@J4.13",
            "--behaviour",
            "S = A + B + CI",
            "--behaviour",
            "CO = (A + B + CI) >> 12",
            "--title",
            "it adds: 12 bits # carry"),
        // a bus that both drive: rest 1, walking 12, LD SEL 4, loads 36 and 60; SEL's two words
        card(
            115,
            "--name",
            "hold",
            "--input",
            "LD",
            "--input",
            "SEL",
            "--output",
            "Q:12",
            "--shared",
            "D:12",
            "--state",
            "R:12=0",
            "--behaviour",
            "D = SEL ? R : 0"),
        // nothing is known of its output: rest 1, walking 3, every word 8
        card(
            12,
            "--name",
            "pick",
            "--input",
            "A:3@J1.3-1",
            "--output",
            "Y:8",
            "--operate",
            "6 ms",
            "--release",
            "4.5 ms",
            "--bounce",
            "0 ms",
            "--unseen-stages",
            "3",
            "--voltage",
            "24 V",
            "--limit",
            "850 mA"),
        // wider than one word, and more single lines than can be combined: 1 + 40 + 40 + 9 + 2 x
        // 100
        card(
            290,
            Stream.concat(
                    Stream.of(
                        "--name",
                        "wide",
                        "--input",
                        "A:40",
                        "--input",
                        "B:40",
                        "--output",
                        "Y",
                        "--behaviour",
                        "Y = ^A ^ ^B"),
                    Stream.iterate(0, i -> i + 1)
                        .limit(9)
                        .flatMap(i -> Stream.of("--input", "L" + i)))
                .toArray()));
  }

  private static List<Object> flat(List<Object> options) {
    List<Object> flat = new ArrayList<>();
    options.forEach(o -> flat.addAll(o instanceof Object[] many ? List.of(many) : List.of(o)));
    return flat;
  }

  @ParameterizedTest
  @MethodSource("cards")
  void aNewCardAndItsNewPlanCheckAndPassAtOnce(List<Object> given) {
    List<Object> words = flat(given.subList(1, given.size()));
    words.addAll(0, List.of("new", "card"));
    words.addAll(List.of("--dir", folder.resolve("made")));
    Path card = folder.resolve("made").resolve("card.yaml");
    Path plan = folder.resolve("made").resolve("bring-up.yaml");

    Cli made = Cli.run(words.toArray());
    assertThat(made.err()).contains("Next: cardproof new plan --card " + card);
    assertThat(made.exitCode()).isZero();
    assertThat(made.out()).isEqualToIgnoringNewLines("Written: " + card);
    Cli planned = Cli.run("new", "plan", "--card", card);
    assertThat(planned.err()).contains("Next: cardproof check " + plan);
    assertThat(planned.exitCode()).isZero();
    Cli checked = Cli.run("check", plan);
    assertThat(checked.exitCode()).as(checked.err()).isZero();
    assertThat(checked.out()).contains(given.get(0) + " vectors");
    Cli run = Cli.run("run", plan, "--seed", "5");
    assertThat(run.exitCode()).as(run.out() + run.err()).isZero();
    boolean predicted = words.contains("--behaviour") || words.contains("--state");
    assertThat(run.out())
        .contains(
            given.get(0) + " pass", predicted ? "\nPROVED: " : "\nPASSED: pick unit 01, but never");
  }

  @Test
  void aFaultIsFoundByTheFirstPlan() {
    Cli.run(
        "new",
        "card",
        "--name",
        "latch",
        "--input",
        "D:4",
        "--input",
        "LD",
        "--output",
        "Q:4",
        "--state",
        "R:4",
        "--dir",
        folder);
    Cli.run("new", "plan", "--card", folder.resolve("card.yaml"));
    Cli run = Cli.run("run", folder.resolve("bring-up.yaml"), "--fault", "Q[2] stuck at ground");
    assertThat(run.exitCode()).isEqualTo(ExitCode.FAILED);
    assertThat(run.out()).contains("Q[2] (J2.3): wanted 1, seen 0");
  }

  @Test
  void nothingIsEverWrittenOver() throws IOException {
    Path card = folder.resolve("card.yaml");
    Files.writeString(card, "# mine\n");
    Cli cli =
        Cli.run("new", "card", "--name", "x", "--input", "A", "--output", "Y", "--dir", folder);
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err()).contains(card + ": this is there already, and nothing is ever written");
    assertThat(Files.readString(card)).isEqualTo("# mine\n");

    Files.delete(card);
    Cli.run("new", "card", "--name", "x", "--input", "A", "--output", "Y", "--dir", folder);
    Path plan = folder.resolve("mine.yaml");
    Files.writeString(plan, "# mine\n");
    Cli again = Cli.run("new", "plan", "--card", card, "--to", plan);
    assertThat(again.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(again.err()).contains("this is there already");
    assertThat(Files.readString(plan)).isEqualTo("# mine\n");
  }

  @Test
  void badOptionsAreAllSaidInTheReadersWordsAndNothingIsWritten() {
    Cli cli =
        Cli.run(
            "new",
            "card",
            "--name",
            "12-bit",
            "--input",
            "A-1:4",
            "--input",
            "A:65",
            "--input",
            "B:4",
            "--output",
            "S:4",
            "--behaviour",
            "S = B + C",
            "--behaviour",
            "T = B",
            "--behaviour",
            "S",
            "--next",
            "R = B",
            "--operate",
            "15",
            "--dir",
            folder);
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err().lines())
        .anyMatch(l -> l.startsWith("--name '12-bit': '12-bit' cannot be the name of a card"))
        .anyMatch(l -> l.startsWith("--input 'A-1:4': 'A-1' cannot be the name of a bus"))
        .anyMatch(l -> l.startsWith("--input 'A:65': 'width' is 65; wanted a whole number"))
        .anyMatch(l -> l.startsWith("--behaviour 'S = B + C': no line or bus is called 'C'"))
        .anyMatch(l -> l.startsWith("--behaviour 'T = B': the card has no output or shared bus"))
        .anyMatch(l -> l.startsWith("--behaviour 'S': no '=' stands behind a name"))
        .anyMatch(l -> l.startsWith("--next 'R = B': there is no state 'R'"))
        .anyMatch(l -> l.startsWith("--operate '15': 'operate' is '15'; wanted a time such as"))
        .contains("8 problems.");
    assertThat(folder).isEmptyDirectory();
  }

  @Test
  void nameThatStandsInForInputsIsNeverShown() {
    Cli cli =
        Cli.run("new", "card", "--name", "x", "--output", "Y:4", "--behaviour", "Y = 1 << SEL");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err())
        .contains("called 'SEL'; the card has no inputs yet; wanted one of Y. Give the inputs too")
        .doesNotContain("later");
  }

  @Test
  void pinsThatNobodyGaveAreSaidToBeGuessed() throws IOException {
    Cli cli =
        Cli.run(
            "new", "card", "--name", "x", "--input", "A@J7.1", "--output", "Y:4", "--dir", folder);
    assertThat(cli.err()).contains("Pins were guessed for Y: correct them in the file before");
    assertThat(Files.readAllLines(folder.resolve("card.yaml")))
        .contains("  A: {at: J7.1}")
        .contains(
            "  Y: {width: 4, at: J1.1-4}"
                + "   # guessed: correct these before wiring from the hook-up table");
  }

  @Test
  void whatIsMissingIsSaid() {
    Cli cli = Cli.run("new", "card", "--name", "x", "--output", "Y", "--dir", folder);
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err()).contains("the card has no lines that could be driven");
    assertThat(folder).isEmptyDirectory();
    assertThat(Cli.run("new").exitCode()).isEqualTo(ExitCode.USAGE);
    Cli noCard = Cli.run("new", "plan", "--card", folder.resolve("none.yaml"));
    assertThat(noCard.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(noCard.err()).contains("there is no such file");
  }

  @Test
  void aStepThatTheCardDoesNotBearIsLeftOutWithItsReason() throws IOException {
    Cli.run(
        "new",
        "card",
        "--name",
        "hour",
        "--input",
        "GO",
        "--output",
        "H:4",
        "--state",
        "C:4=0",
        "--next",
        "C = GO ? C + 1 : C",
        "--dir",
        folder);
    Path plan = folder.resolve("bring-up.yaml");
    assertThat(Cli.run("new", "plan", "--card", folder.resolve("card.yaml")).exitCode()).isZero();
    assertThat(Files.readString(plan)).contains("# Left out, because ", "# each: {GO: all}");
    assertThat(Cli.run("run", plan).exitCode()).isZero();
  }

  @Test
  void answersAreJudgedAsTheyAreTyped() throws IOException {
    Typed.Session session =
        Typed.run(
            NewCardCommand::new,
            List.of("--dir", folder),
            "12-bit",
            "sum",
            "", // name, again, title as offered
            "A:12 B:l2",
            "A:12 B:12",
            "CI",
            "", // inputs
            "S:12",
            "",
            "", // outputs, shared
            "", // state
            "S = A + BB",
            "S = A + B + CI", // what S does, in the form that options have
            "12",
            "12 V",
            "",
            "",
            "",
            "",
            "2",
            "");
    assertThat(session.cli().exitCode()).as(session.cli().err()).isZero();
    assertThat(session.left()).isZero();
    assertThat(session.cli().err())
        .contains("name '12-bit': '12-bit' cannot be the name of a card; wanted a letter")
        .contains("input 'B:l2': 'l2' is no number")
        .contains("no line or bus is called 'BB'")
        .contains("A number alone has no unit: write 12 mV or 12 V");
    assertThat(session.prompts())
        .contains("What it is, in one line [sum card]: ", "Operate time of a relay [15 ms]: ")
        .contains("Latest change of any output [260 ms]: ");
    assertThat(Files.readString(folder.resolve("card.yaml")))
        .contains(
            "card: sum",
            "  CI: {at: J1.25}   # guessed: correct",
            "S: A + B + CI",
            "{settle: 260 ms}");

    Typed.Session plan =
        Typed.run(
            NewPlanCommand::new,
            List.of(),
            folder.resolve("cards.yaml").toString(),
            folder.resolve("card.yaml").toString(),
            folder.resolve("card.yaml").toString(),
            folder.resolve("plans/first.yaml").toString(),
            "first: power");
    assertThat(plan.cli().exitCode()).as(plan.cli().err()).isZero();
    assertThat(plan.cli().err()).contains("there is no such file", "this is there already");
    assertThat(Files.readString(folder.resolve("plans/first.yaml")))
        .contains("plan: \"first: power\"", "card: \"../card.yaml\"");
    assertThat(Cli.run("run", folder.resolve("plans/first.yaml")).exitCode()).isZero();
  }

  @Test
  void guessesAreOfferedAndSilenceEndsWithoutAFile() {
    Typed.Session session =
        Typed.run(
            NewCardCommand::new,
            List.of("--dir", folder, "--input", "D:4", "--input", "LD"),
            "latch",
            "",
            "",
            "Q:4",
            "",
            "",
            "R:4=0",
            "");
    assertThat(session.cli().exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(session.cli().err()).contains("the answers ended too early", "Nothing was written");
    assertThat(session.prompts()).last().isEqualTo("Next value of R [LD ? D : R]: ");
    assertThat(folder).isEmptyDirectory();
  }

  @Test
  void withNobodyToAskTheOptionsAreNamed() {
    org.junit.jupiter.api.Assumptions.assumeTrue(System.console() == null, "a terminal is there");
    Cli cli = Cli.run("new", "card", "--dir", folder);
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err()).contains("there is no terminal to ask at", "--name");
  }
}
