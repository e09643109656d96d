package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Sweeps on the command line: the demonstration plan of the hold card. */
class SweepCommandTest {
  private static final Path TIMING = Path.of("vectors", "hold", "timing.yaml");

  @TempDir private Path folder;

  private Path log() {
    return folder.resolve("bench-log.sqlite");
  }

  @Test
  void aRunPrintsATableForEachSweepAndTheLogPrintsItAgain() {
    Cli run = Cli.run("run", TIMING, "--log", log());
    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.PASSED);
    assertThat(run.out())
        .contains("set-up of D before LD goes to 0, ms   " + TIMING + ":8\n")
        .contains("hold of D after LD goes to 0, ms   " + TIMING + ":12\n")
        .contains("pulse of LD to 1 that takes D, ms   " + TIMING + ":16\n")
        .containsPattern("  Q\\[0] +J3\\.1 +rising +-[0-9.]+ +[0-9]+ +-[0-9.]+ ")
        .containsPattern(
            "  worst: [0-9.]+ ms \\(Q\\[\\d+] rising\\), wanted at most 60 ms: holds\n")
        .containsPattern("2353 vectors: \\d+ pass, \\d+ measured\n")
        .contains("PROVED: hold unit 01 passed every vector of this plan (SIMULATED)\n")
        // the first vector after the last sweep: what that left in the register is not known
        .contains("12 watched bits were not judged");
    Cli again = Cli.run("log", log(), "--run", 1);
    String tables = run.out().substring(run.out().indexOf("set-up of D"));
    tables = tables.substring(0, tables.indexOf("longest silence"));
    assertThat(again.out()).contains(tables);
  }

  @Test
  void aPlantedSlowRelayFailsItsLimitOnTheRightBit() {
    String fault = "R[5] slow by 45 ms";
    Cli run =
        Cli.run("run", TIMING, "--log", log(), "--fault", fault, "--only", "shortest", "--json");
    assertThat(run.exitCode()).isEqualTo(ExitCode.FAILED);
    JsonObject json = JsonParser.parseString(run.out()).getAsJsonObject();
    JsonObject sweep = json.getAsJsonArray("sweeps").get(0).getAsJsonObject();
    assertThat(sweep.get("what").getAsString()).isEqualTo("pulse of LD to 1 that takes D");
    assertThat(sweep.get("atMostUs").getAsLong()).isEqualTo(50_000);
    JsonArray lines = sweep.getAsJsonArray("lines");
    assertThat(lines).hasSize(24);
    for (JsonElement element : lines) {
      JsonObject line = element.getAsJsonObject();
      boolean slow = line.get("line").getAsString().equals("Q[5]");
      boolean rising = line.get("direction").getAsString().equals("rising");
      if (slow && rising) {
        assertThat(line.get("workedUs").isJsonNull()).isTrue();
      } else {
        assertThat(line.get("workedUs").getAsLong()).isLessThan(slow ? 50_001 : 40_000);
      }
    }
    for (JsonElement element : json.getAsJsonArray("failures")) {
      JsonArray bits = element.getAsJsonObject().getAsJsonArray("bits");
      assertThat(bits).hasSize(1);
      assertThat(bits.get(0).getAsJsonObject().get("line").getAsString()).isEqualTo("Q[5]");
    }
    assertThat(json.getAsJsonObject("verdicts").get("measured").getAsLong()).isPositive();
    assertThat(Cli.run("log", log(), "--run", 1).out())
        .containsPattern("  Q\\[5] +J3\\.6 +rising +never +0 +60\\.0 .*FAILS\n")
        .contains(
            "worst: never worked to the end of the range (Q[5] rising), wanted at most 50 ms\n");
  }

  @Test
  void checkSaysWhatSweepsCost() {
    Cli check = Cli.run("check", TIMING);
    assertThat(check.exitCode()).isEqualTo(ExitCode.PASSED);
    assertThat(check.out())
        .contains(
            "  set-up of D before LD goes to 0: 202 trials, 4 vectors each with those that prepare it ("
                + TIMING
                + ":8)\n")
        .contains("Q[11:0] (J3.12 to J3.1) are judged in 8 of 9 vectors outside sweeps\n");
  }
}
