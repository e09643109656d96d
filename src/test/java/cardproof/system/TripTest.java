package cardproof.system;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.log.BenchLog;
import cardproof.log.RunDetail;
import cardproof.log.RunEnd;
import cardproof.log.RunFilter;
import cardproof.log.VectorRecord;
import cardproof.log.Verdict;
import cardproof.pty.Journal;
import cardproof.pty.Ptys;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the fixture drops for by itself, over a serial port: the run ends, with exit code 5. */
class TripTest {
  private static final String HOUR = "src/test/resources/cli/hour/";

  @TempDir Path home;

  @BeforeAll
  static void onlyWherePtysAre() {
    Ptys.assumeAvailable();
  }

  @Test
  void aChainFedBackIsDroppedByTheFixtureItself() throws Exception {
    Path plan = home.resolve("plan.yaml");
    Files.writeString(
        plan,
        "plan: a chain fed back on itself\ncard: "
            + Path.of(HOUR, "fed-back.yaml").toAbsolutePath()
            + "\nsteps:\n  - title: a line on\n    drive: {EN: 1}\n");
    Ended ended;
    Board board = Board.with(HOUR + "fed-back.yaml");
    try (board) {
      ended = run(plan.toString(), board, "--reconnect", "20 s");
    }
    assertThat(ended.exit()).as(ended.toString()).isEqualTo(5);
    Journal journal = board.journal();
    List<Journal.Switched> switched = journal.switched();
    assertThat(switched).as(ended.toString()).isNotEmpty();
    assertThat(journal.last().on()).isZero();
    assertThat(journal.last().atNs())
        .as("the host had not said STOP by then")
        .isLessThan(journal.firstStopNs());
    double heldMs = (journal.last().atNs() - switched.get(switched.size() - 2).atNs()) / 1e6;

    Matcher message =
        Pattern.compile(
                ": (a line went on changing, and the fixture dropped every drive ([0-9.]+) ms into"
                    + " vector 1 at \\S+plan.yaml:4#1 \\(a line on\\))\\. Look for an"
                    + " output that feeds its own input, then for a relay that cannot hold")
            .matcher(ended.err());
    assertThat(message.find()).as(ended.err()).isTrue();
    System.out.printf("fed back: dropped after %.1f ms, said to be %s%n", heldMs, message.group(2));
    assertThat(Double.parseDouble(message.group(2))).isBetween(heldMs - 100, heldMs + 30);
    assertThat(ended.err()).as("a trip ends the session for good").doesNotContain("Waiting for");
    assertThat(ended.out()).contains("CHATTER", "NOT PROVED").doesNotContain("--resume");
    RunDetail logged = logged();
    assertThat(logged.summary().end()).isEqualTo(RunEnd.TRIPPED);
    assertThat(logged.summary().why()).isEqualTo(message.group(1));
    assertThat(logged.summary().counts().get(Verdict.CHATTER)).isEqualTo(1);
    Ended resumed = run(plan.toString(), board, "--resume", "1");
    assertThat(resumed.exit()).isEqualTo(2);
    assertThat(resumed.err()).contains("it ended in a trip", "Find what tripped");
  }

  @Test
  void aPatternThatIsHeldTooLong() throws Exception {
    Path card = home.resolve("slow.yaml");
    Files.writeString(
        card,
        """
        card: slow
        supply: {voltage: 12 V, limit: 1 A}
        inputs: {A: {at: J1.1}}
        outputs: {S: {at: J2.1}}
        behaviour: {S: A}
        limits: {settle: 30 ms, quiet: 12 ms, watch: 200 ms, hold: 200 ms}
        relays: {unseen-stages: 1, operate: 4 ms, release: 3 ms, bounce: 1 ms}
        """);
    Path plan = home.resolve("plan.yaml");
    Files.writeString(
        plan,
        """
        plan: hold a line
        card: slow.yaml
        steps:
          - title: a line on
            drive: {A: 1}
        """);
    Ended ended;
    Board board = Board.with(card.toString(), "fault=S stuck at ground");
    try (board) {
      ended = run(plan.toString(), board);
    }
    assertThat(ended.exit()).as(ended.toString()).isEqualTo(5);
    assertThat(board.journal().last().on()).isZero();
    assertThat(board.journal().last().atNs()).isLessThan(board.journal().firstStopNs());
    assertThat(ended.exit()).as(ended.toString()).isEqualTo(5);
    assertThat(ended.err())
        .contains(
            "a pattern was held longer than the card allows, and the fixture dropped every drive ",
            " vector 1 at " + plan + ":4#1 (a line on). Feel whether a coil is hot.");
    List<VectorRecord> records = new ArrayList<>();
    RunDetail logged = logged();
    try (BenchLog log = BenchLog.openForReading(log())) {
      log.forEachVector(logged.summary().id(), records::add);
    }
    assertThat(records.get(0).verdict()).isIn(Verdict.WRONG, Verdict.UNTESTED);
  }

  private RunDetail logged() {
    try (BenchLog log = BenchLog.openForReading(log())) {
      return log.run(log.runs(RunFilter.real()).get(0).id()).orElseThrow();
    }
  }

  private Path log() {
    return home.resolve("bench-log.sqlite");
  }

  private Ended run(String plan, Board board, String... more) throws Exception {
    List<String> words =
        new ArrayList<>(
            List.of("run", plan, "--powered", "--port", board.port(), "--log", log().toString()));
    words.addAll(List.of(more));
    return Program.run(home, words.toArray(new String[0]));
  }
}
