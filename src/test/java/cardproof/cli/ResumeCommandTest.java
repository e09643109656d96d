package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.log.BenchLog;
import cardproof.log.RunFilter;
import cardproof.log.VectorRecord;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ResumeCommandTest {
  @TempDir private Path folder;
  private Path plan;
  private Path log;

  /** A run of the hold card that ended early, with half of it to do. */
  @BeforeEach
  void breakOff() {
    plan = Cli.demonstration(folder, "hold");
    log = plan.resolveSibling("bench-log.sqlite");
    Cli cli =
        Cli.run(
            "run",
            plan,
            "--seed",
            7,
            "--unit",
            "04",
            "--fault",
            "Q[3] stuck at ground",
            "--stop-on-fail");
    assertThat(cli.exitCode()).as(cli.err()).isEqualTo(ExitCode.FAILED);
    assertThat(cli.out()).contains("Go on with it: cardproof run " + plan + " --resume 1\n");
  }

  private Cli resumed(Object... more) {
    List<Object> words = new ArrayList<>(List.of("run", plan, "--resume", 1));
    words.addAll(List.of(more));
    return Cli.run(words.toArray());
  }

  private static List<String> told(BenchLog log, long run) {
    List<String> told = new ArrayList<>();
    log.forEachVectorOfAll(run, vector -> told.add(told(vector)));
    return told;
  }

  private static String told(VectorRecord vector) {
    return vector.number() + " " + vector.step() + "#" + vector.indexInStep() + vector.level();
  }

  @Test
  void theLogSaysHowToGoOnAndThenWhoDid() {
    assertThat(Cli.run("log", log, "--run", 1).out())
        .endsWith("Go on with it: cardproof run " + plan + " --resume 1\n");
    Cli cli = resumed();
    assertThat(cli.out()).contains("continues run 1 at vector ", "of those before, 1 did not pass");
    assertThat(cli.exitCode()).as(cli.err()).isEqualTo(ExitCode.FAILED);
    assertThat(Cli.run("log", log, "--run", 1).out()).endsWith("Run 2 continues it.\n");
    assertThat(Cli.run("log", log, "--run", 2).out()).contains("continues run 1: from vector ");
  }

  @Test
  void allVectorsTogetherAreThoseOfAnUnbrokenRunOfTheSameUnitSeedAndFaults() {
    resumed();
    Cli whole =
        Cli.run("run", plan, "--seed", 7, "--unit", "04", "--fault", "Q[3] stuck at ground");
    assertThat(whole.exitCode()).isEqualTo(ExitCode.FAILED);
    try (BenchLog open = BenchLog.openForReading(log)) {
      assertThat(told(open, 2)).isEqualTo(told(open, 3));
      assertThat(open.runs(RunFilter.real().bench(RunFilter.Bench.SIMULATED)))
          .allSatisfy(run -> assertThat(run.unit().unit()).isEqualTo("04"));
      assertThat(open.run(2).orElseThrow().start().faults())
          .containsExactly("Q[3] stuck at ground");
      assertThat(open.run(2).orElseThrow().start().seed().getAsLong()).isEqualTo(7);
    }
  }

  @Test
  void onlyOneRunContinuesAnother() {
    resumed();
    Cli again = resumed();
    assertThat(again.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(again.err()).contains("--resume 1: run 2 has continued it already");
    Cli finished = Cli.run("run", plan, "--resume", 2);
    assertThat(finished.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(finished.err()).contains("--resume 2: it went through to its end");
  }

  @Test
  void aFileThatChangedIsRefusedByName() throws Exception {
    Files.writeString(plan, Files.readString(plan) + "\n# later\n");
    Cli cli = resumed();
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err()).contains("--resume 1: " + plan + " is not what it was");
  }

  @Test
  void otherUnitsSeedsAndStepsAreRefused() {
    assertThat(resumed("--unit", "05").err()).contains("--unit is 05, and it was begun with 04");
    assertThat(resumed("--seed", 8).err()).contains("--seed is 8, and it was begun with 7");
    assertThat(resumed("--only", "load").err()).contains("--only is [load]");
    assertThat(Cli.run("run", plan, "--resume", 9).err()).contains("--resume 9: it is not in ");
  }

  @Test
  void aUnitThatWasReworkedIsProvedFromTheBeginning() {
    Cli.run("log", log, "--simulated", "--rework", "K7 replaced", "--card", "hold", "--unit", "04");
    assertThat(resumed().err()).contains("the unit was reworked since ('K7 replaced')");
  }

  /**
   * The program died between its last record and its last word. Only the rest after the last vector
   * makes that one's verdict final, so it is run again, and nothing else is.
   */
  @Test
  void aRunWhoseEveryVectorIsRecordedGoesOnAtItsLast() throws Exception {
    Path pick = Cli.demonstration(Files.createDirectory(folder.resolve("other")), "pick");
    Path file = pick.resolveSibling(BenchLogs.NAME);
    assertThat(Cli.run("run", pick).exitCode()).isZero();
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = connection.createStatement()) {
      statement.executeUpdate("UPDATE run SET ending = 0, ended_us = NULL, pid = 999999999");
    }
    Cli resumed = Cli.run("run", pick, "--resume", 1);
    assertThat(resumed.exitCode()).as(resumed.err()).isZero();
    assertThat(resumed.out()).contains("continues run 1 at vector 97");
    try (BenchLog open = BenchLog.openForReading(file)) {
      List<VectorRecord> all = new ArrayList<>();
      open.forEachVectorOfAll(2, all::add);
      assertThat(all).extracting(VectorRecord::number).doesNotHaveDuplicates().hasSize(97);
      assertThat(open.vector(2, 96)).isPresent();
      assertThat(open.vector(2, 94)).as("a card without state needs no run-up").isEmpty();
    }
  }
}
