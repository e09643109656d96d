package cardproof.system;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeFalse;

import cardproof.log.BenchLog;
import cardproof.log.RunDetail;
import cardproof.log.RunEnd;
import cardproof.log.RunFilter;
import cardproof.pty.PosixSignals;
import cardproof.pty.Ptys;
import cardproof.report.VcdFile;
import cardproof.report.VcdReader;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The simulated bench on the computer's own clock, and what is left of a run that was stopped. */
class RealTimeTest {
  private static final String PLAN = "vectors/hold/bring-up.yaml";
  private static final long LONGEST_NS = 20_000_000_000L;
  private static final int ENOUGH = 4_000;

  @TempDir Path home;

  @BeforeAll
  static void onlyWhereThereAreSignals() {
    Ptys.assumeAvailable();
  }

  @Test
  void aSecondOfCardTimeTakesASecond() throws Exception {
    Ended ended = Program.run(home, arguments("--only", "take a word", "--json"));
    assertThat(ended.exit()).as(ended.toString()).isZero();
    JsonObject run = JsonParser.parseString(ended.out()).getAsJsonObject();
    assertThat(run.get("cardMs").getAsDouble()).isGreaterThan(200);
    assertThat(run.get("wallMs").getAsDouble())
        .isGreaterThanOrEqualTo(run.get("cardMs").getAsDouble());
  }

  @Test
  void toldToStopItDropsTheDrivesAndSaysSo() throws Exception {
    Ended ended;
    try (Program program = Program.start(home, arguments("--vcd", wave().toString()))) {
      awaitWave();
      assumeFalse(
          PosixSignals.INT.isIgnoredBy(program.process()),
          "skipped: these tests were started with SIGINT ignored, as by nohup");
      PosixSignals.INT.send(program.process());
      ended = program.await();
    }
    assertThat(ended.exit()).as(ended.toString()).isEqualTo(4);
    String why = "stopped by the operator (INT)";
    assertThat(ended.out())
        .contains(", in real time\n", "Ended early: " + why + ".", " untested", "(SIMULATED)");
    RunDetail run = logged();
    assertThat(run.summary().end()).isEqualTo(RunEnd.STOPPED);
    assertThat(run.summary().why()).isEqualTo(why);
    VcdFile file = VcdReader.read(Files.readString(wave()));
    assertThat(file.signal("hold.drives.D").at(file.endNs()))
        .as("drives")
        .isEqualTo("0".repeat(12));
    assertThat(file.signal("hold.lines.LD").at(file.endNs())).isEqualTo("0");
  }

  @Test
  void killedItLeavesAWaveThatCanBeReadAsFarAsItGoes() throws Exception {
    try (Program program = Program.start(home, arguments("--vcd", wave().toString()))) {
      awaitWave();
      program.process().destroyForcibly();
      program.await();
    }
    VcdFile file = VcdReader.read(Files.readString(wave()));
    assertThat(file.endNs()).isPositive();
    assertThat(logged().summary().end()).isEqualTo(RunEnd.INTERRUPTED);
  }

  private String[] arguments(String... more) {
    String[] fixed = {"run", PLAN, "--real-time", "--log", log().toString()};
    String[] all = new String[fixed.length + more.length];
    System.arraycopy(fixed, 0, all, 0, fixed.length);
    System.arraycopy(more, 0, all, fixed.length, more.length);
    return all;
  }

  private Path log() {
    return home.resolve("bench-log.sqlite");
  }

  private Path wave() {
    return home.resolve("wave.vcd");
  }

  private RunDetail logged() {
    try (BenchLog log = BenchLog.openForReading(log())) {
      long id = log.runs(RunFilter.real().bench(RunFilter.Bench.SIMULATED)).get(0).id();
      return log.run(id).orElseThrow();
    }
  }

  /** A few vectors are over, most are not. */
  private void awaitWave() throws IOException {
    long untilNs = System.nanoTime() + LONGEST_NS;
    while (!Files.exists(wave()) || Files.size(wave()) < ENOUGH) {
      assertThat(System.nanoTime() - untilNs).as("a wave under way").isNegative();
      LockSupport.parkNanos(20_000_000);
    }
  }
}
