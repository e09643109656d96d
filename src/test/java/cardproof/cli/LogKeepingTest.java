package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.log.BenchLog;
import cardproof.log.RunFilter;
import cardproof.log.UnitId;
import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Records written for other programs, logs merged, runs forgotten. */
final class LogKeepingTest {
  private static final UnitId UNIT = UnitId.simulated("pick", "01");

  @TempDir private Path folder;
  private Path plan;
  private Path log;

  @BeforeEach
  void twoRuns() {
    plan = Cli.demonstration(folder, "pick");
    log = plan.resolveSibling(BenchLogs.NAME);
    Cli.run("run", plan, "--seed", 1);
    Cli.run("run", plan, "--seed", 2, "--fault", "Y[3] stuck at ground");
  }

  private List<CSVRecord> table(Path place, String name) throws IOException {
    CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
    try (CSVParser parser = CSVParser.parse(Files.readString(place.resolve(name)), format)) {
      return parser.getRecords();
    }
  }

  @Test
  void tablesHoldWhatTheLogHoldsUnderAnyLocale() throws IOException {
    Locale before = Locale.getDefault();
    Locale.setDefault(Locale.GERMANY);
    Cli cli;
    try {
      cli = Cli.run("log", log, "--simulated", "--export", folder.resolve("tables"));
    } finally {
      Locale.setDefault(before);
    }
    assertThat(cli.exitCode()).as(cli.err()).isZero();
    assertThat(cli.out()).startsWith("2 runs written to ");
    Path tables = folder.resolve("tables");
    List<CSVRecord> runs = table(tables, "runs.csv");
    assertThat(runs).extracting(row -> row.get("run")).containsExactly("1", "2");
    assertThat(runs.get(0).get("proved")).isEqualTo("true");
    assertThat(runs.get(1).get("faults")).isEqualTo("Y[3] stuck at ground");
    List<CSVRecord> vectors = table(tables, "vectors.csv");
    assertThat(vectors).filteredOn(row -> row.get("run").equals("1")).hasSize(97);
    CSVRecord failed =
        vectors.stream()
            .filter(row -> row.get("verdict").equals("wrong"))
            .findFirst()
            .orElseThrow();
    assertThat(failed.get("wanted")).isNotEqualTo(failed.get("seen"));
    assertThat(failed.get("at")).contains("bring-up.yaml:");
    long[] moved = new long[1];
    try (BenchLog open = BenchLog.openForReading(log)) {
      open.forEachVector(1, vector -> moved[0] += vector.moved().size());
      open.forEachVector(2, vector -> moved[0] += vector.moved().size());
    }
    assertThat(table(tables, "moved.csv")).hasSize((int) moved[0]);
  }

  @Test
  void oneDocumentHoldsTheSame() throws IOException {
    Path file = folder.resolve("pick.json");
    assertThat(Cli.run("log", log, "--simulated", "--export", file).exitCode()).isZero();
    JsonObject json = JsonParser.parseString(Files.readString(file)).getAsJsonObject();
    assertThat(json.keySet()).containsExactly("runs", "vectors", "moved", "reworks");
    JsonArray vectors = json.getAsJsonArray("vectors");
    long wrong = 0;
    for (JsonElement vector : vectors) {
      wrong += vector.getAsJsonObject().get("verdict").getAsString().equals("wrong") ? 1 : 0;
    }
    assertThat(json.getAsJsonArray("runs").get(1).getAsJsonObject().get("wrong").getAsLong())
        .isEqualTo(wrong)
        .isPositive();
    Cli again = Cli.run("log", log, "--simulated", "--export", file);
    assertThat(again.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(again.err()).contains("there is a file " + file + " already; wanted a name");
  }

  @Test
  void anotherBenchsRunsAreTakenOnce() {
    Path other = folder.resolve("other.sqlite");
    Cli.run("run", plan, "--seed", 3, "--log", other);
    assertThat(Cli.run("log", log, "--merge", other).out())
        .isEqualTo(
            String.format(
                "1 run taken, 0 were here already; 0 rework notes taken, 0 here already.%n"));
    assertThat(Cli.run("log", log, "--merge", other).out()).startsWith("0 runs taken, 1 was here");
    assertThat(Cli.run("log", log, "--simulated").out()).contains("    3  ");
    assertThat(Cli.run("log", log, "--merge", log).err()).contains("this is the log itself");
  }

  @Test
  void nothingIsForgottenWithoutAYes() {
    List<Object> words = List.of(log, "--forget-before", "2999-01-01");
    Typed.Session no = Typed.run(LogCommand::new, words, "no");
    assertThat(no.prompts().get(0))
        .startsWith("2 runs of 1 unit, started before 2999-01-01 00:00:00, with every vector");
    assertThat(no.cli().exitCode()).isEqualTo(ExitCode.STOPPED);
    Cli alone = Cli.run("log", log, "--forget-before", "2999-01-01");
    assertThat(alone.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(alone.err()).contains("2 runs would go, and nobody is there to say yes");
    assertThat(runs()).isEqualTo(2);
    assertThat(Typed.run(LogCommand::new, words, "yes").cli().out())
        .isEqualTo(String.format("2 runs forgotten.%n"));
    assertThat(runs()).isZero();
  }

  private int runs() {
    try (BenchLog open = BenchLog.openForReading(log)) {
      return open.runs(RunFilter.of(UNIT)).size();
    }
  }

  @Test
  void picturesOfAReworkAreKeptByName() {
    Cli cli =
        Cli.run(
            "log",
            log,
            "--simulated",
            "--card",
            "pick",
            "--unit",
            "01",
            "--rework",
            "K2 replaced",
            "--picture",
            "k2.jpg",
            "--picture",
            "joint.jpg");
    assertThat(cli.exitCode()).as(cli.err()).isZero();
    assertThat(cli.err()).contains("warning: there is no file k2.jpg here");
    try (BenchLog open = BenchLog.openForReading(log)) {
      assertThat(open.reworks(UNIT).get(0).pictures()).containsExactly("k2.jpg", "joint.jpg");
    }
    assertThat(Cli.run("log", log, "--picture", "k2.jpg").err())
        .contains("--picture needs --rework to say what was repaired");
    assertThat(Cli.run("log", log, "--run", "1", "--merge", "x").exitCode())
        .isEqualTo(ExitCode.USAGE);
  }
}
