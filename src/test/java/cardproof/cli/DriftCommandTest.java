package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A simulated sum card on the bench again and again, and a relay of it that wears. */
final class DriftCommandTest {
  @TempDir private Path folder;

  /** The three slowest transitions, 20 times each. */
  private Path probes() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli.run("run", plan, "--unit", "03");
    Cli.run("pace", plan, "--prove", "300ms", "--times", 20, "--unit", "03");
    Cli.run("log", log(plan), "--simulated", "--card", "sum", "--unit", "03", "--rework", "new");
    return plan.resolveSibling("proof-03.yaml");
  }

  private static Path log(Path plan) {
    return plan.resolveSibling(BenchLogs.NAME);
  }

  private static void sessions(Path plan, int from, int to, Object... more) {
    for (int session = from; session <= to; session++) {
      List<Object> words = new ArrayList<>(List.of("run", plan, "--unit", "03"));
      words.addAll(List.of("--session", session));
      words.addAll(List.of(more));
      Cli cli = Cli.run(words.toArray());
      assertThat(cli.exitCode()).as(cli.err()).isZero();
    }
  }

  private static Cli drift(Path plan, Object... more) {
    List<Object> words = new ArrayList<>(List.of("drift", log(plan), "--simulated"));
    words.addAll(List.of(more));
    return Cli.run(words.toArray());
  }

  @Test
  void aRelayThatGetsSlowerIsSeenAndASoundCardIsLeftAlone() {
    Path plan = probes();
    sessions(plan, 1, 10);
    Cli early = drift(plan);
    assertThat(early.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(early.err())
        .contains("no more than 10 have one transition 20 times; wanted more than 10 such runs");

    sessions(plan, 11, 14);
    Cli sound = drift(plan);
    assertThat(sound.exitCode()).as(sound.out()).isZero();
    assertThat(sound.out())
        .startsWith("drift of sum unit 03 SIMULATED, 14 runs since its last rework")
        .contains("no line has moved by more than its runs differ; the widest limit for one is ");

    for (int i = 1; i <= 8; i++) {
      sessions(plan, 14 + i, 14 + i, "--fault", "BIT[11].C slow by " + 3 * i + " ms");
    }
    Cli worn = drift(plan);
    assertThat(worn.exitCode()).isEqualTo(ExitCode.FAILED);
    assertThat(worn.out())
        .containsPattern(
            "S\\[11\\] (rising|falling) is getting slower: [0-9.]+ ms in the first 10 runs")
        .contains(" run by run; - baseline")
        .doesNotContain("S[3] rising is", "S[5] falling is");
    Cli named = drift(plan, "--card-file", plan.resolveSibling("card.yaml"));
    assertThat(named.out())
        .contains(
            "By the wiring these lines share one relay that the steady ones do not wait for,"
                + " BIT[11].C: this relay is wearing.");
    boolean[] slower = new boolean[1];
    JsonObject json = JsonParser.parseString(drift(plan, "--json").out()).getAsJsonObject();
    for (JsonElement element : json.getAsJsonArray("lines")) {
      JsonObject line = element.getAsJsonObject();
      if (line.get("gettingSlower").getAsBoolean()) {
        slower[0] = true;
        assertThat(line.get("line").getAsString()).isIn("S[11]", "CO[0]");
        assertThat(line.getAsJsonArray("medians")).hasSize(22);
      }
    }
    assertThat(slower[0]).isTrue();
    assertThat(drift(plan, "--csv").out())
        .startsWith("line,label,going,transition,run,n,median_us");
  }

  /** What was before a rework says nothing of what is after it. */
  @Test
  void aReworkBeginsAnew() {
    Path plan = probes();
    sessions(plan, 1, 3);
    Cli.run(
        "log",
        log(plan),
        "--simulated",
        "--card",
        "sum",
        "--unit",
        "03",
        "--rework",
        "K3 replaced");
    Cli cli = drift(plan);
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err())
        .contains("of 0 runs of sum unit 03 SIMULATED since its last rework, none has");
  }

  /** Times of another fixture, and void ones, are left out, and that is said. */
  @Test
  void runsThatDoNotCountAreNamed() {
    Path plan = probes();
    sessions(plan, 1, 1, "--seed", 2);
    List<Object> slow = List.of("--session", 2, "--fault", "BIT[3].C slow by 90 ms");
    List<Object> words = new ArrayList<>(List.of("run", plan, "--unit", "03"));
    words.addAll(slow);
    assertThat(Cli.run(words.toArray()).out()).contains("VOID");
    sessions(plan, 3, 12);
    assertThat(drift(plan).err())
        .contains("no more than 10 have one transition 20 times")
        .contains("; 1 run left out as VOID; 1 made on another fixture; wanted more than 10");
    sessions(plan, 13, 13);
    Cli cli = drift(plan);
    assertThat(cli.exitCode()).as(cli.out() + cli.err()).isZero();
    assertThat(cli.out())
        .startsWith("drift of sum unit 03 SIMULATED, 11 runs since its last rework")
        .containsPattern("VOID and left out: run [0-9]+, since the card moved after")
        .containsPattern("left out: run [0-9]+, since another fixture has delays");
  }
}
