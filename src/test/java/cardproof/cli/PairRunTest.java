package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A pair is checked, run and judged like a card. What counters do is common practice, no source.
 */
class PairRunTest {
  private static final Path HOUR = Path.of("src", "test", "resources", "cli", "hour");

  @TempDir private Path folder;

  private Path hour(String plan) {
    return Cli.copy(
        folder,
        HOUR.resolve("next.yaml"),
        HOUR.resolve("keep.yaml"),
        HOUR.resolve("through.yaml"),
        HOUR.resolve("hour.yaml"),
        HOUR.resolve("fed-back.yaml"),
        HOUR.resolve(plan));
  }

  @Test
  void theHourCounterIsProvedThroughItsWholeRange() {
    Cli cli = Cli.run("run", hour("bring-up.yaml"), "--json");
    assertThat(cli.exitCode()).isZero();
    assertThat(cli.err()).doesNotContain("warning");
    JsonObject run = JsonParser.parseString(cli.out()).getAsJsonObject();
    assertThat(run.get("card").getAsString()).isEqualTo("hour");
    assertThat(run.get("proved").getAsBoolean()).isTrue();
    assertThat(run.get("notJudgedBits").getAsLong()).isZero();
    assertThat(run.get("vectors").getAsLong()).isGreaterThan(8000);
  }

  @Test
  void theHookUpNamesTheLinesThatLeaveAndNoOthers() {
    Cli cli = Cli.run("check", hour("bring-up.yaml"));
    assertThat(cli.exitCode()).isZero();
    assertThat(cli.err()).isEmpty();
    assertThat(cli.out())
        .contains("1 lines driven, 12 watched, holds state", "J3.1       LD", "J4.12")
        .doesNotContain("J1.", "J2.", "P1");
  }

  @Test
  void aFaultOfALineThatLeavesIsFound() {
    Cli cli =
        Cli.run("run", hour("bring-up.yaml"), "--only", "pulse", "--fault", "LD stuck at ground");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.FAILED);
    assertThat(cli.out()).contains("one pulse, one up", "wanted 0x001, seen 0x000");
  }

  @Test
  void aChainFedBackWithNoRegisterIsRecognisedAndChatters() {
    Path plan = hour("fed-back-plan.yaml");
    Cli check = Cli.run("check", plan);
    assertThat(check.exitCode()).isZero();
    assertThat(check.err())
        .contains(
            "fed-back.yaml:8:5: the cable closes a circle with nothing in it that keeps a value: "
                + "through.Q -> chain.X -> chain.N -> through.D -> through.Q")
        .contains("a register between");
    Cli run = Cli.run("run", plan);
    assertThat(run.exitCode()).isEqualTo(ExitCode.TRIPPED);
    assertThat(run.out()).contains("CHATTER", "NOT PROVED");
    assertThat(run.err()).containsPattern("dropped every drive [0-9.]+ ms into vector 1 at ");
  }

  @Test
  void aFirstPlanIsMadeForAPairToo() {
    hour("bring-up.yaml");
    Path plan = folder.resolve("first.yaml");
    Cli made =
        Cli.run(
            "new", "plan", "--card", folder.resolve("hour.yaml"), "--title", "first", "--to", plan);
    assertThat(made.exitCode()).as(made.err()).isZero();
    Cli run = Cli.run("run", plan);
    assertThat(run.exitCode()).isZero();
  }
}
