package cardproof.system;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.log.BenchLog;
import cardproof.log.PowerOn;
import cardproof.pty.Ptys;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A pace measured and proved on a board at a port, in real time. */
class PacePortTest {
  private static final String CARD = "src/test/resources/system/pick-card.yaml";

  @TempDir Path home;

  @BeforeAll
  static void onlyWherePtysAre() {
    Ptys.assumeAvailable();
  }

  private Path plan() throws Exception {
    Path plan = home.resolve("few.yaml");
    Files.copy(Path.of(CARD), home.resolve("pick-card.yaml"));
    Files.writeString(
        plan,
        """
        plan: a few lines of a pick card
        card: pick-card.yaml
        steps:
          - title: a few
            each: {EN N: [8, 11, 13, 14]}
        """);
    return plan;
  }

  private Ended pace(Board board, Path plan, String... more) throws Exception {
    List<String> words = new ArrayList<>(List.of("pace", plan.toString(), "--unit", "07"));
    words.addAll(List.of("--powered", "--port", board.port()));
    words.addAll(List.of(more));
    try (Program program = Program.start(home, words.toArray(new String[0]))) {
      return program.await();
    }
  }

  @Test
  void oneCycleIsMeasuredAndProvedAndTheDrivesAreDown() throws Exception {
    Path plan = plan();
    try (Board board = Board.with(CARD)) {
      Ended measured =
          pace(board, plan, "--measure", "--cycles", "1", "--share", "50", "--transitions", "2");
      assertThat(measured.exit()).as(measured.toString()).isZero();
      assertThat(measured.out())
          .contains(
              " Hz: one step every ",
              "In 1 run the longest of at least 5 repeats",
              "Of other power cycles nothing is said");
      Ended proved = pace(board, plan, "--prove", "100ms", "--times", "5", "--transitions", "1");
      assertThat(proved.exit()).as(proved.toString()).isZero();
      assertThat(proved.out()).startsWith("PROVED at 100.0 ms: 5 samples");
      assertThat(board.journal().live()).isFalse();
    }
    try (BenchLog log = BenchLog.openForReading(home.resolve("bench-log.sqlite"))) {
      assertThat(log.powerOns(1)).containsExactly(new PowerOn(0, PowerOn.How.FOUND_ON));
    }
  }

  @Test
  void severalCyclesWantSomebodyWhoSwitches() throws Exception {
    Path plan = plan();
    try (Board board = Board.with(CARD)) {
      Ended ended = pace(board, plan, "--measure", "--cycles", "2");
      assertThat(ended.exit()).isEqualTo(2);
      assertThat(ended.err())
          .contains(
              "the fixture cannot switch the card's supply, and there is no terminal to ask at")
          .contains("--cycles 1");
      assertThat(board.journal().sessions()).isZero();
    }
  }
}
