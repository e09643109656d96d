package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.log.BenchLog;
import cardproof.log.Superseded;
import cardproof.log.Verdict;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A relay slower than the card file says must not pass for a card that has settled. */
class SettlingTest {
  @TempDir private Path folder;

  /** Nothing is wanted of the slow line, so the last word is settled long before it moves. */
  @Test
  void aLineThatMovesAfterTheVerdictTakesItBack() throws IOException {
    Path plan = Cli.demonstration(folder, "hold").resolveSibling("two-words.yaml");
    Files.writeString(
        plan,
        """
        plan: two words
        card: card.yaml
        steps:
          - title: cleared
            drive: {LD: 1, D: 0, SEL: 0}
          - title: words taken
            each: {D: [0x001, 0x009]}
            expect: {Q: 0bxxxx_xxxx_x001}
        """);
    Cli sound = Cli.run("run", plan);
    assertThat(sound.exitCode()).as(sound.out() + sound.err()).isZero();
    assertThat(sound.out()).contains("longest silence ").doesNotContain("VOID");

    Cli slow = Cli.run("run", plan, "--fault", "R[3] slow by 100 ms");
    assertThat(slow.exitCode()).isEqualTo(ExitCode.FAILED);
    assertThat(slow.out())
        .contains("Q[3] (J3.4): moved after the card was taken for settled")
        .contains("VOID, see below: settle times")
        .contains("VOID: after 1 vector the card moved once more");
    try (BenchLog log = BenchLog.openForReading(plan.resolveSibling("bench-log.sqlite"))) {
      List<Superseded> before = log.superseded(2);
      assertThat(before).hasSize(1);
      assertThat(before.get(0).record().verdict()).isEqualTo(Verdict.PASS);
      assertThat(log.vector(2, 2).orElseThrow().verdict()).isEqualTo(Verdict.UNSETTLED);
    }
    assertThat(Cli.run("log", plan.getParent(), "--simulated", "--run", 2).out())
        .contains("VOID, see below: settle times");
  }

  /**
   * Every vector is right in the end; that one took too long for the window only an audit shows.
   */
  @Test
  void aSilenceAsLongAsTheWindowVoidsTheTimesAndNamesTheLine() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli cli = Cli.run("run", plan, "--fault", "BIT[5].C slow by 80 ms", "--json");
    assertThat(cli.exitCode()).as(cli.err()).isZero();
    JsonObject run = JsonParser.parseString(cli.out()).getAsJsonObject();
    assertThat(run.get("settleVoid").getAsBoolean()).isTrue();
    assertThat(run.get("reopenedVectors").getAsLong()).isZero();
    JsonObject silence = run.getAsJsonObject("longestSilence");
    assertThat(silence.get("us").getAsLong()).isGreaterThan(silence.get("quietUs").getAsLong());
    // the slow relay takes the carry into bit 5, and the first line it moves is the sum bit there
    assertThat(silence.get("endedBy").getAsString()).isEqualTo("S[5]");
    assertThat(Cli.run("log", plan.getParent(), "--simulated", "--run", 1).out())
        .contains("VOID: a silence of ", "ended by S[5] (J4.6)", "look at what moves S[5] (J4.6)");
  }
}
