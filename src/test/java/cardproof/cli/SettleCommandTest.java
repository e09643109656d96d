package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.log.BenchLog;
import cardproof.log.UnitId;
import cardproof.timing.RunSettles;
import cardproof.timing.history.SettleHistory;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Settle times over three runs of one simulated sum card. */
final class SettleCommandTest {
  private static final int RUNS = 3;

  @TempDir private static Path folder;
  private static Path log;

  @BeforeAll
  static void runThreeTimes() {
    Path plan = Cli.demonstration(folder, "sum");
    for (int seed = 1; seed <= RUNS; seed++) {
      assertThat(Cli.run("run", plan, "--seed", seed, "--unit", "03").exitCode()).isZero();
    }
    log = plan.resolveSibling(BenchLogs.NAME);
  }

  private static Cli settle(Object... options) {
    Object[] words = new Object[options.length + 3];
    words[0] = "settle";
    words[1] = log;
    words[2] = "--simulated";
    System.arraycopy(options, 0, words, 3, options.length);
    return Cli.run(words);
  }

  @Test
  void thePageSaysWhoseTimesAndWhichTransitionIsSlowest() {
    Cli cli = settle();
    assertThat(cli.exitCode()).as(cli.err()).isZero();
    assertThat(cli.out())
        .startsWith("settle times of sum unit 03 SIMULATED, 3 runs, ")
        .contains("no bound")
        .contains("slowest transitions")
        // the carry from the carry input to the top passes every stage
        .containsPattern(
            "1  CO rising: 2[0-9]{2}\\.[0-9] ms, median 2[0-9]{2}\\.[0-9] of 3\\R"
                + " +A 0x(000|FFF), B 0x(FFF|000), CI 0 -> 1\\R"
                + " +run [123], vector [0-9]+, .*bring-up.yaml:[0-9]+#[0-9]+");
    assertThat(cli.out().lines()).allSatisfy(line -> assertThat(line.length()).isLessThan(112));
  }

  @Test
  void theTableHasEveryTransitionOnceALineAndDirection() throws IOException {
    Cli cli = settle("--csv");
    Set<String> keys = new HashSet<>();
    long n = 0;
    for (CSVRecord row :
        CSVFormat.RFC4180
            .builder()
            .setHeader()
            .setSkipHeaderRecord(true)
            .get()
            .parse(new StringReader(cli.out()))) {
      assertThat(keys.add(row.get("line") + row.get("going") + row.get("transition"))).isTrue();
      assertThat(Long.parseLong(row.get("min_us")))
          .isLessThanOrEqualTo(Long.parseLong(row.get("median_us")));
      assertThat(Long.parseLong(row.get("median_us")))
          .isLessThanOrEqualTo(Long.parseLong(row.get("max_us")));
      n += Long.parseLong(row.get("n"));
    }
    assertThat(keys).hasSizeGreaterThan(1000);
    assertThat(n).isEqualTo(timesInTheLog());
  }

  private static long timesInTheLog() {
    long[] n = new long[1];
    try (BenchLog open = BenchLog.openForReading(log)) {
      for (long run = 1; run <= RUNS; run++) {
        RunSettles.forEach(open, run, line -> n[0] += line.count());
      }
    }
    return n[0];
  }

  @Test
  void jsonHasTheSame() {
    JsonObject json = JsonParser.parseString(settle("--json").out()).getAsJsonObject();
    assertThat(json.getAsJsonArray("runs")).hasSize(RUNS);
    assertThat(json.getAsJsonArray("voidRuns")).isEmpty();
    long n = 0;
    for (JsonElement line : json.getAsJsonArray("lines")) {
      for (JsonElement row : line.getAsJsonObject().getAsJsonArray("transitions")) {
        n += row.getAsJsonObject().get("n").getAsLong();
      }
    }
    assertThat(n).isEqualTo(timesInTheLog());
  }

  @Test
  void oneLineAlone() {
    assertThat(settle("--line", "S[11]").out()).contains("S[11]").doesNotContain("CO ");
    assertThat(settle("--line", "J4.13").out()).contains("CO rising").doesNotContain("S[11]");
    Cli none = settle("--line", "S[12]");
    assertThat(none.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(none.err()).contains("'S[12]' is no watched line of this card").contains("Did you");
  }

  @Test
  void whatIsNotThereIsSaid() {
    Cli real = Cli.run("settle", log);
    assertThat(real.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(real.err())
        .contains("there is no run of a real unit; wanted a unit that has been run here. Add")
        .contains("--simulated");
    assertThat(settle("--since", "2999-01-01").err()).contains("no run of sum unit 03 SIMULATED");
    assertThat(settle("--since", "yesterday").err())
        .contains("'yesterday' is no date; wanted one like 2026-03-01");
    assertThat(settle("--card", "hold").err()).contains("no run of a simulated unit of card hold");
  }

  /** A card that moved after it was judged has no settle times that can be relied on. */
  @Test
  void voidRunsAreLeftOutAndNamed(@TempDir Path other) {
    Path plan = Cli.demonstration(other, "sum");
    Cli.run("run", plan, "--seed", 1);
    Path file = plan.resolveSibling(BenchLogs.NAME);
    try (BenchLog open = BenchLog.open(file, java.time.Clock.systemUTC())) {
      assertThat(open.runs(cardproof.log.RunFilter.of(UnitId.simulated("sum", "01")))).hasSize(1);
    }
    assertThat(Cli.run("settle", file, "--simulated").exitCode()).isZero();
    VoidRun.add(file);
    assertThat(Cli.run("settle", file, "--simulated").out())
        .contains("VOID and left out: run 2, where the card moved after");
    assertThat(
            SettleHistory.of(file, List.of(1L), line -> true).lines().stream()
                .mapToInt(line -> line.count())
                .sum())
        .isPositive();
  }
}
