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
