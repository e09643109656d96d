package cardproof.system;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.log.BenchLog;
import cardproof.log.RunDetail;
import cardproof.log.RunEnd;
import cardproof.log.RunFilter;
import cardproof.log.Verdict;
import cardproof.pty.Ptys;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A plan run over a serial port, good cards and bad. */
class RunTest {
  private static final String SUM = "vectors/sum/card.yaml";
  private static final String SUM_PLAN = "vectors/sum/bring-up.yaml";

  @TempDir Path home;

  @BeforeAll
  static void onlyWherePtysAre() {
    Ptys.assumeAvailable();
  }

  @Test
  void aGoodCardPassesAndIsLoggedAsARealUnit() throws Exception {
    Ended ended;
    try (Board board = Board.with(SUM, "board=Gull Point 3")) {
      ended = run(SUM_PLAN, board, "--only", "tide heights", "--unit", "03", "--json");
    }
    assertThat(ended.err()).isEmpty();
    assertThat(ended.exit()).isZero();

    JsonObject json = JsonParser.parseString(ended.out()).getAsJsonObject();
    assertThat(json.keySet())
        .containsExactly(
            "plan",
            "card",
            "unit",
            "simulated",
            "seed",
            "vectors",
            "verdicts",
            "notJudgedBits",
            "wallMs",
            "cardMs",
            "settle",
            "failureCount",
            "failures",
            "end",
            "why",
            "proved",
            "partial",
            "board",
            "run",
            "log",
            "simulatedFrom",
            "lowestRailMv",
            "highestCurrentMa",
            "missing",
            "vcd",
            "capture",
            "sweeps",
            "settleVoid",
            "reopenedVectors",
            "longestSilence",
            "clockDriftPercent");
    assertThat(json.get("simulated").getAsBoolean()).isFalse();
    assertThat(json.get("vectors").getAsInt()).isEqualTo(3);
    assertThat(json.getAsJsonObject("verdicts").keySet())
        .containsExactly(
            "pass",
            "wrong",
            "late",
            "disturbed",
            "unsettled",
            "supply",
            "chatter",
            "measured",
            "untested");
    assertThat(json.getAsJsonObject("verdicts").get("pass").getAsInt()).isEqualTo(3);
    assertThat(json.get("wallMs").getAsDouble())
        .isGreaterThanOrEqualTo(json.get("cardMs").getAsDouble());
    assertThat(json.get("end").getAsString()).isEqualTo("finished");
    assertThat(json.get("partial").getAsBoolean()).isTrue();
    assertThat(json.get("proved").getAsBoolean()).isFalse();
    assertThat(json.get("board").getAsString()).isEqualTo("Gull Point 3");
    JsonObject row = json.getAsJsonArray("settle").get(0).getAsJsonObject();
    assertThat(row.keySet())
        .containsExactly(
            "line",
            "label",
            "direction",
            "n",
            "minUs",
            "medianUs",
            "maxUs",
            "censored",
            "p90Us",
            "pin");

    try (BenchLog log = BenchLog.openForReading(logFile())) {
      assertThat(log.runs(RunFilter.real().bench(RunFilter.Bench.SIMULATED))).isEmpty();
      RunDetail run = log.run(log.runs(RunFilter.real()).get(0).id()).orElseThrow();
      assertThat(run.summary().unit().toString()).isEqualTo("sum unit 03");
      assertThat(run.summary().end()).isEqualTo(RunEnd.FINISHED);
      assertThat(run.summary().proved()).isFalse();
      assertThat(run.start().fixture().board()).isEqualTo("Gull Point 3");
      assertThat(run.start().fixture().firmware()).isEqualTo("1.1.0");
      assertThat(run.start().fixture().boardId()).isNotZero();
      assertThat(run.start().seed()).isEmpty();
    }
  }

  @Test
  void aBoardThatSaysItIsSimulatedIsNeverARealUnit() throws Exception {
    Ended ended;
    try (Board board = Board.with(SUM, "simulated=true")) {
      ended = run(SUM_PLAN, board, "--only", "carry in alone");
    }
    assertThat(ended.exit()).isZero();
    assertThat(ended.out()).contains("   SIMULATED", "(SIMULATED)");
    try (BenchLog log = BenchLog.openForReading(logFile())) {
      assertThat(log.runs(RunFilter.real())).isEmpty();
      assertThat(log.runs(RunFilter.real().bench(RunFilter.Bench.SIMULATED))).hasSize(1);
    }
  }

  @Test
  void aFaultOfTheCardIsFoundAndItsBitsNamed() throws Exception {
    Ended ended;
    try (Board board = Board.with(SUM, "fault=S[3] stuck at ground", "fault=CO stuck at supply")) {
      ended = run(SUM_PLAN, board, "--only", "tide heights", "--json");
    }
    assertThat(ended.exit()).isEqualTo(1);
    JsonObject json = JsonParser.parseString(ended.out()).getAsJsonObject();
    // 412 + 137 = 549 = 0x225; 549 - 137 = 412 = 0x19C, the only one with bit 3, with a carry; and
    // 4095 + 1 = 0 with a carry.
    assertThat(json.getAsJsonObject("verdicts").get("wrong").getAsInt()).isEqualTo(2);
    assertThat(json.getAsJsonObject("verdicts").get("pass").getAsInt()).isEqualTo(1);
    assertThat(wrongLines(json, 0)).containsExactly("CO");
    assertThat(wrongLines(json, 1)).containsExactly("S[3]");
    assertThat(json.get("proved").getAsBoolean()).isFalse();
    try (BenchLog log = BenchLog.openForReading(logFile())) {
      assertThat(log.runs(RunFilter.real()).get(0).counts())
          .containsEntry(Verdict.WRONG, 2L)
          .containsEntry(Verdict.PASS, 1L);
    }
  }

  @Test
  void aCardThatHoldsStateOverASharedBus() throws Exception {
    Ended good;
    try (Board board = Board.with("vectors/hold/card.yaml")) {
      good = run("vectors/hold/bring-up.yaml", board, holdSteps());
    }
    assertThat(good.exit()).isZero();
    assertThat(good.out()).contains("12 vectors: 12 pass", "\nPASSED: hold unit 01");
    assertThat(good.out()).doesNotContain("SIMULATED");

    Ended bad;
    try (Board board = Board.with("vectors/hold/card.yaml", "fault=Q[4] exchanged with Q[5]")) {
      bad = run("vectors/hold/bring-up.yaml", board, holdSteps());
    }
    assertThat(bad.exit()).isEqualTo(1);
    assertThat(bad.out()).contains("wanted 0xA53, seen 0xA63", "NOT PROVED: hold unit 01");
  }

  private static String[] holdSteps() {
    return List.of("take a word", "read back").stream()
        .flatMap(title -> List.of("--only", title).stream())
        .toArray(String[]::new);
  }

  private Ended run(String plan, Board board, String... more) throws Exception {
    String[] fixed = {
      "run", plan, "--port", board.port(), "--powered", "--log", logFile().toString()
    };
    String[] all = new String[fixed.length + more.length];
    System.arraycopy(fixed, 0, all, 0, fixed.length);
    System.arraycopy(more, 0, all, fixed.length, more.length);
    return Program.run(home, all);
  }

  private Path logFile() {
    return home.resolve("bench-log.sqlite");
  }

  private static List<String> wrongLines(JsonObject json, int failure) {
    return json
        .getAsJsonArray("failures")
        .get(failure)
        .getAsJsonObject()
        .getAsJsonArray("bits")
        .asList()
        .stream()
        .map(bit -> bit.getAsJsonObject().get("line").getAsString())
        .toList();
  }
}
