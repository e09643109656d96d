package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.card.Role;
import cardproof.files.CardFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * First plans, on simulated cards with every fault that a hand-soldered input is likely to have.
 */
class NewPlanFaultsTest {
  @TempDir private Path folder;

  private Card make(String options) {
    List<Object> words = new ArrayList<>(List.of("new", "card", "--name", "pick", "--dir", folder));
    words.addAll(List.of(options.split(" (?=--)| (?<=--[a-z]{1,9} )")));
    assertThat(Cli.run(words.toArray()).exitCode()).isZero();
    Path card = folder.resolve("card.yaml");
    Cli planned = Cli.run("new", "plan", "--card", card);
    assertThat(planned.exitCode()).as(planned.err()).isZero();
    return CardFile.read(card).value();
  }

  /** Of each of these cards every input fault can be seen: worked out by hand. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        // a gated decoder, an adder, a mux, a register
        "--input SEL:2 --input EN --output Y:4 --behaviour Y = EN ? 1 << SEL : 0",
        "--input A:3 --input B:3 --input CI --output S:4 --behaviour S = A + B + CI",
        "--input A:4 --input B:4 --input S --output Y:4 --behaviour Y = S ? B : A",
        "--input D:4 --input LD --output Q:4 --state R:4",
        // three lines that gate, one of them the other way round; a clear that a load waits for
        "--input A:6 --input E --input F --input CLR --output Y:6"
            + " --behaviour Y = E & F & ~CLR ? A : 0",
        "--input D:3 --input LD --input CE --input OE --output Q:3 --state R:3"
            + " --next R = LD & CE ? D : R --behaviour Q = OE ? R : 0"
      })
  void everyStuckInputAndAllExchangedNeighboursAreFound(String options) {
    Card card = make(options);
    Path plan = folder.resolve("bring-up.yaml");
    assertThat(Cli.run("run", plan).exitCode()).isZero();
    List<String> missed =
        faults(card).stream()
            .filter(f -> Cli.run("run", plan, "--fault", f).exitCode() != ExitCode.FAILED)
            .toList();
    assertThat(missed).isEmpty();
  }

  private static List<String> faults(Card card) {
    List<String> faults = new ArrayList<>();
    for (Line line : card.lines()) {
      Bus bus = line.bus();
      if (bus.role() == Role.INPUT) {
        faults.add(line.name() + " stuck at ground");
        faults.add(line.name() + " stuck at supply");
        if (line.bit() > 0) {
          faults.add(card.lines().get(line.index() - 1).name() + " exchanged with " + line.name());
        }
      }
    }
    return faults;
  }

  /**
   * The plan says how many faults it finds; every one of them is put into the simulated card, which
   * knows nothing of that count.
   */
  @ParameterizedTest
  @ValueSource(
      strings = {
        // a wide AND with an enable; a wide OR with a line the other way round
        "--input A:9 --input EN --output Y --behaviour Y = EN & &A",
        "--input A:8 --input B --input N --output Y --behaviour Y = |A | B | ~N",
        // any two operands' lines of one weight may be exchanged
        "--input A:2 --input B:2 --input CI --output S:3 --behaviour S = A + B + CI",
        // a comparator: single outputs, and lines that must not be exchanged
        "--input A:3 --input B:3 --output LT --output EQ --behaviour LT = A < B"
            + " --behaviour EQ = A == B",
        "--input D:2 --input LD --input CE --input OE --output Q:2 --state R:2"
            + " --next R = LD & CE ? D : R --behaviour Q = OE ? R : 0",
        // two registers on a bus: who is selected shows only when they differ
        "--shared D:2 --input LA --input LB --input SA --input SB --output Q:2 --output P:2"
            + " --state RA:2 --state RB:2 --next RA = LA ? D : RA --next RB = LB ? D : RB"
            + " --behaviour Q = RA --behaviour P = RB"
            + " --behaviour D = (SA ? RA : 0) | (SB ? RB : 0)"
      })
  void thePlanFindsJustWhatItSays(String options) throws IOException {
    Card card = make(options);
    Path plan = folder.resolve("bring-up.yaml");
    Matcher said =
        Pattern.compile(
                "(\\d+) of (\\d+) driven lines stuck.*?(\\d+) of (\\d+) pairs", Pattern.DOTALL)
            .matcher(Files.readString(plan));
    assertThat(said.find()).isTrue();
    List<String> stuck = new ArrayList<>();
    List<String> exchanged = new ArrayList<>();
    List<Line> driven = card.lines().stream().filter(l -> l.bus().role().driven()).toList();
    for (Line line : driven) {
      stuck.add(line.name() + " stuck at ground");
      stuck.add(line.name() + " stuck at supply");
      driven.stream()
          .filter(other -> other.index() > line.index() && other.bus().role() == line.bus().role())
          .forEach(other -> exchanged.add(line.name() + " exchanged with " + other.name()));
    }
    assertThat(List.of(stuck.size(), exchanged.size()))
        .containsExactly(Integer.parseInt(said.group(2)), Integer.parseInt(said.group(4)));
    assertThat(found(plan, stuck)).as(options).isEqualTo(Long.parseLong(said.group(1)));
    assertThat(found(plan, exchanged)).as(options).isEqualTo(Long.parseLong(said.group(3)));
  }

  private static long found(Path plan, List<String> faults) {
    return faults.stream()
        .filter(fault -> Cli.run("run", plan, "--fault", fault).exitCode() != ExitCode.PASSED)
        .count();
  }

  @Test
  void everyLineOfAWideGateIsFound() throws IOException {
    make("--input A:12 --output Y --output Z --behaviour Y = &A --behaviour Z = |A");
    assertThat(Files.readString(folder.resolve("bring-up.yaml")))
        .contains("24 of 24 driven lines stuck", "0 of 66 pairs")
        .contains("No plan can find these", "exchanged with one another: A[11:0]")
        .contains("Shows on Y what nothing above does: A[11:0] stuck at ground.")
        .contains("title: every line of A on but one", "each: {A: walking-zeros}")
        .doesNotContain("title: every line of A off"); // that was in the first two steps
  }

  /** Not every word can be tried of 25 lines, so that nothing is said to be proved. */
  @Test
  void whatWasNotProvedIsNotSaidToBe() throws IOException {
    make("--input A:12 --input B:12 --input CI --output S:13 --behaviour S = A + B + CI");
    assertThat(Files.readString(folder.resolve("bring-up.yaml")))
        .contains("50 of 50 driven lines stuck", "286 of 300 pairs", "perhaps none can")
        .contains("A[0], B[0], CI; A[1] and B[1];")
        .doesNotContain("No plan can");
  }

  @Test
  void nothingIsClaimedOfACardThatSaysNothing() throws IOException {
    make("--input A:3 --output Y:8");
    assertThat(Files.readString(folder.resolve("bring-up.yaml")))
        .contains("does not say what Y should do")
        .doesNotContain("driven lines");
  }

  /** The step alone, without those that would make up for it. */
  @Test
  void walkingAGatedSelectorIsDoneWithTheGateOn() throws IOException {
    make("--input SEL:2 --input EN --output Y:4 --behaviour Y = EN ? 1 << SEL : 0");
    Path plan = folder.resolve("bring-up.yaml");
    assertThat(Files.readString(plan))
        .contains(
            "drive: {EN: 1}",
            "Finds lines of SEL that are missing or stuck, and neighbours exchanged.",
            "Finds lines of EN that are missing or stuck.\n")
        .contains("each: {SEL EN: all}")
        .doesNotContain("random");
    Cli run =
        Cli.run(
            "run", plan, "--only", "one line of SEL", "--fault", "SEL[0] exchanged with SEL[1]");
    assertThat(run.exitCode()).isEqualTo(ExitCode.FAILED);
  }

  @Test
  void noMoreIsClaimedThanTheBehaviourBearsOut() throws IOException {
    // neighbours of a parity cannot be told apart: 6 of 8 faults of A; nothing shows B at all
    make("--input A:3 --input B:2 --output P --behaviour P = ^A");
    assertThat(Files.readString(folder.resolve("bring-up.yaml")))
        .contains("Finds 6 of 8 faults of A:", "No output shows B here")
        .doesNotContain("Finds lines of");
  }

  @Test
  void wordsAreRandomWhereAllWouldBeMany() throws IOException {
    String lines =
        IntStream.range(0, 9).mapToObj(i -> "--input L" + i + " ").reduce("", String::concat);
    make(lines + "--output P --behaviour P = L0 ^ L8");
    assertThat(Files.readString(folder.resolve("bring-up.yaml"))).contains("random words on L0");
  }
}
