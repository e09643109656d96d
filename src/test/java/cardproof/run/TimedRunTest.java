package cardproof.run;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import cardproof.card.Bus;
import cardproof.files.PlanFile;
import cardproof.log.Verdict;
import cardproof.plan.Plan;
import cardproof.text.RefusedException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Timed sequences and dwells on the hold card, simulated from its wiring. */
class TimedRunTest {
  private static final Path HOLD = Path.of("vectors", "hold", "card.yaml").toAbsolutePath();

  @TempDir Path folder;

  @Test
  void dataBeforeLoadAndAfterItIsHeld() throws IOException {
    Plan plan =
        plan(
            "sequence: {0 ms: {D: 0xA5A, LD: 0, SEL: 0}, 150 ms: {LD: 1}, 300 ms: {LD: 0},"
                + " 450 ms: {D: 0}}",
            "settle: 600 ms",
            "expect: {Q: 0xA5A, D: 0}");
    var outcome = BenchRun.of(plan, folder).go();
    assertThat(outcome.verdicts()).containsExactly(Verdict.PASS);
    var record = outcome.records().get(0);
    assertThat(record.cared().cardinality()).isEqualTo(24);
    // times from the start of a sequence are no settle times of the card
    assertThat(record.moved()).isNotEmpty().allMatch(moved -> moved.byFixture());
    assertThat(record.level().isEmpty()).isTrue();
  }

  /** Behaviour alone says the same, taken through each setting in turn. */
  @Test
  void behaviourIsTakenThroughEachSettingInTurn() throws IOException {
    Plan plan =
        plan(
            "sequence: {0 ms: {D: 0xA5A, LD: 0}, 150 ms: {LD: 1}, 300 ms: {LD: 0}, 450 ms: {D: 0}}",
            "settle: 600 ms");
    var vector = plan.vectors().next();
    assertThat(vector.expect()[indexOf(plan, "Q")]).isEqualTo(0xA5A);
    assertThat(vector.describe())
        .isEqualTo("LD=0 SEL=0 D=0xA5A; 150 ms LD=1; 300 ms LD=0; 450 ms D=0x000");
  }

  /** Load ends 3 ms before the data goes: on paper in order, on relays nobody knows. */
  @Test
  void whatHangsOnTheOrderOfNearSettingsIsNotJudged() throws IOException {
    Plan plan =
        plan(
            "sequence: {0 ms: {D: 0xA5A, LD: 0}, 150 ms: {LD: 1}, 300 ms: {LD: 0}, 303 ms: {D: 0x25B}}",
            "settle: 600 ms");
    int q = indexOf(plan, "Q");
    var vector = plan.vectors().next();
    // bits that are the same before and after hang on nothing
    assertThat(vector.care()[q]).isEqualTo(0xFFF & ~(0xA5A ^ 0x25B));
    assertThat(vector.expect()[q]).isEqualTo(0xA5A & 0x25B);
    assertThat(PlanFile.read(folder.resolve("plan.yaml")).warnings())
        .singleElement()
        .satisfies(w -> assertThat(w.toString()).contains("303 ms", "not judged"));
  }

  /** A pulse of 2 ms is over before any relay of the card could have operated. */
  @Test
  void aLoadTooShortForTheRelaysIsSeen() throws IOException {
    Plan plan =
        plan(
            "sequence: {0 ms: {D: 0xA5A, LD: 0, SEL: 0}, 150 ms: {LD: 1}, 152 ms: {LD: 0},"
                + " 300 ms: {D: 0}}",
            "settle: 600 ms",
            "expect: {Q: 0xA5A}");
    assertThat(BenchRun.of(plan, folder).go().verdicts()).containsExactly(Verdict.WRONG);
  }

  @Test
  void aDwellJudgesWhatStandsThen() throws IOException {
    String load = "drive: {D: 0xFFF, LD: 1, SEL: 0}";
    assertThat(BenchRun.of(plan(load, "dwell: 100 ms"), folder).go().verdicts())
        .containsExactly(Verdict.PASS);
    assertThat(BenchRun.of(plan(load, "dwell: 5 ms"), folder).go().verdicts())
        .containsExactly(Verdict.LATE);
  }

  /** Q[0] moves at some time; a dwell half a millisecond before it sees an unstable line. */
  @Test
  void aLineThatChangesCloseToTheDwellDoesNotPass() throws IOException {
    String load = "drive: {D: 0xFFF, LD: 1, SEL: 0}";
    long lastUs =
        BenchRun.of(plan(load), folder).go().records().get(0).moved().stream()
            .mapToLong(moved -> moved.lastUs())
            .max()
            .orElseThrow();
    for (long dwellUs : List.of(lastUs - 500, lastUs + 500)) {
      var outcome = BenchRun.of(plan(load, "dwell: " + dwellUs + " us"), folder).go();
      assertThat(outcome.verdicts()).containsExactly(Verdict.UNSETTLED);
      assertThat(outcome.failures().get(0).why()).contains("unstable at the dwell");
    }
    assertThat(BenchRun.of(plan(load, "dwell: " + (lastUs + 1500) + " us"), folder).go().verdicts())
        .containsExactly(Verdict.PASS);
  }

  @Test
  void aFixtureWithoutSequencesIsRefusedBeforeAnythingIsDriven() throws IOException {
    Plan plan = plan("sequence: {0 ms: {D: 5}, 150 ms: {LD: 1}}", "settle: 300 ms");
    BenchRun run = BenchRun.of(plan, folder).settings(s -> s.withProtocolMinor(0));
    assertThatThrownBy(run::go)
        .isInstanceOf(RefusedException.class)
        .hasMessageContaining("plan.yaml:4")
        .hasMessageContaining("runs no timed sequences");
  }

  private static int indexOf(Plan plan, String bus) {
    return plan.card().buses().stream().map(Bus::name).toList().indexOf(bus);
  }

  private Plan plan(String... lines) throws IOException {
    Path file = folder.resolve("plan.yaml");
    String step = "  - title: timed\n    " + String.join("\n    ", lines) + "\n";
    Files.writeString(file, "plan: timed\ncard: " + HOLD + "\nsteps:\n" + step);
    return PlanFile.read(file).value();
  }
}
