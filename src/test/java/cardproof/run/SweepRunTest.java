package cardproof.run;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import cardproof.files.PlanFile;
import cardproof.log.BenchLog;
import cardproof.log.SweepLine;
import cardproof.log.SweepRecord;
import cardproof.log.Verdict;
import cardproof.plan.Plan;
import cardproof.plan.PlanCheck;
import cardproof.sim.SimSettings;
import cardproof.sim.circuit.HoldBit;
import cardproof.text.RefusedException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Sweeps on the hold card, simulated from its wiring. */
class SweepRunTest {
  private static final Path HOLD = Path.of("vectors", "hold", "card.yaml").toAbsolutePath();
  private static final String SET_UP =
      "{find: set-up, data: D, edge: {LD: 0}, from: -60 ms, to: 40 ms, resolution: 0.5 ms}";
  private static final String HOLD_TIME =
      "{find: hold, data: D, edge: {LD: 0}, from: -20 ms, to: 60 ms, resolution: 0.5 ms}";
  private static final String PULSE =
      "{find: pulse, data: D, edge: {LD: 1}, from: 0.5 ms, to: 60 ms, resolution: 0.5 ms}";
  private static final long STEP_US = 125;
  private static final int OPERATIONS = 24;

  @TempDir Path folder;

  private interface Works {
    boolean at(HoldBit bit, long us, boolean rising, long operation);
  }

  /**
   * Every figure lies where the times of this unit's relays put it: within one step of the sweep of
   * what 24 operations of the same relays come to, each of which has times of its own.
   */
  @ParameterizedTest
  @CsvSource({"1,01", "7,02"})
  void figuresAreThoseThatTheRelaysImply(long seed, String unit) throws IOException {
    Plan plan = plan(SET_UP, HOLD_TIME, PULSE);
    BenchRun run = BenchRun.of(plan, folder).settings(s -> SimSettings.of(seed, unit));
    assertThat(run.go().tally().failed()).isZero();
    List<SweepRecord> sweeps = sweeps(run);
    assertThat(sweeps).hasSize(3).allSatisfy(sweep -> assertThat(sweep.lines()).hasSize(24));
    agree(plan, seed, unit, sweeps.get(0), HoldBit::setUpWorks);
    agree(plan, seed, unit, sweeps.get(1), HoldBit::holdWorks);
    agree(plan, seed, unit, sweeps.get(2), HoldBit::pulseWorks);
  }

  private static void agree(Plan plan, long seed, String unit, SweepRecord sweep, Works works) {
    for (SweepLine line : sweep.lines()) {
      int bit = plan.card().lines().get(line.line()).bit();
      HoldBit model = new HoldBit(plan.card(), seed, unit, bit, "", 0);
      long least = Long.MAX_VALUE;
      long most = Long.MIN_VALUE;
      for (int operation = 0; operation < OPERATIONS; operation++) {
        long us = implied(model, sweep, works, line.rising(), 17L * operation);
        least = Math.min(least, us);
        most = Math.max(most, us);
      }
      assertThat(line.workedUs().getAsLong())
          .as("%s, bit %d, %s", sweep.what(), bit, line.rising() ? "rising" : "falling")
          .isBetween(least - sweep.resolutionUs(), most + 2 * sweep.resolutionUs());
      assertThat(line.workedUs().getAsLong() - line.failedUs().getAsLong())
          .isEqualTo(sweep.resolutionUs());
    }
  }

  /** The edge by the relays' times alone, halved down to a part of the sweep's resolution. */
  private static long implied(
      HoldBit model, SweepRecord sweep, Works works, boolean rising, long operation) {
    long fails = sweep.fromUs();
    long holds = sweep.toUs();
    assertThat(works.at(model, fails, rising, operation)).isFalse();
    assertThat(works.at(model, holds, rising, operation)).isTrue();
    while (holds - fails > STEP_US) {
      long middle = (holds + fails) / 2;
      if (works.at(model, middle, rising, operation)) {
        holds = middle;
      } else {
        fails = middle;
      }
    }
    return holds;
  }

  /** The relay that keeps bit 5 operates and releases 30 ms late: bit 5 is longer, no other is. */
  @Test
  void aSlowRelayShowsOnItsOwnBit() throws IOException {
    Plan plan = plan(SET_UP.replace("0.5 ms}", "0.5 ms, at-most: 5 ms}"));
    BenchRun sound = BenchRun.of(plan, Files.createDirectory(folder.resolve("sound")));
    BenchRun slow =
        BenchRun.of(plan, Files.createDirectory(folder.resolve("slow")))
            .faults("R[5] slow by 30 ms");
    assertThat(sound.go().tally().failed()).isZero();
    var outcome = slow.go();
    // at the limit and beyond it is judged like any other vector, and no other line is to blame
    assertThat(outcome.failures())
        .isNotEmpty()
        .allSatisfy(
            failure -> {
              assertThat(failure.verdict()).isEqualTo(Verdict.WRONG);
              assertThat(failure.bits())
                  .extracting(bit -> bit.line().name())
                  .containsExactly("Q[5]");
            });
    assertThat(outcome.tally().count(Verdict.MEASURED)).isPositive();
    List<SweepLine> before = sweeps(sound).get(0).lines();
    List<SweepLine> after = sweeps(slow).get(0).lines();
    for (int i = 0; i < before.size(); i++) {
      long laterUs = after.get(i).workedUs().getAsLong() - before.get(i).workedUs().getAsLong();
      boolean planted = plan.card().lines().get(before.get(i).line()).name().equals("Q[5]");
      if (planted && before.get(i).rising()) {
        // the relay itself takes 30 ms longer to operate, and by HoldBit nothing else matters
        assertThat(laterUs).isBetween(28_000L, 32_000L);
      } else if (!planted) {
        assertThat(Math.abs(laterUs)).isLessThanOrEqualTo(1_500);
      }
    }
  }

  /**
   * Three settled vectors before each trial put the other word in; no trial is taken for a pass.
   */
  @Test
  void everyTrialIsARecordedVector() throws IOException {
    Plan plan = plan(PULSE.replace("resolution: 0.5 ms}", "resolution: 0.5 ms, points: 30}"));
    BenchRun run = BenchRun.of(plan, folder);
    var outcome = run.go();
    assertThat(plan.vectorCount()).isEqualTo(30 * 2 * 4);
    assertThat(outcome.records()).hasSize(240);
    assertThat(outcome.toldTheSame()).isTrue();
    for (int i = 0; i < 240; i++) {
      Verdict verdict = outcome.records().get(i).verdict();
      if (i % 4 != 3) {
        assertThat(verdict).isEqualTo(Verdict.PASS);
      } else {
        assertThat(verdict).isIn(Verdict.MEASURED, Verdict.PASS);
        assertThat(outcome.records().get(i).cared().cardinality()).isEqualTo(12);
      }
    }
    SweepRecord sweep = sweeps(run).get(0);
    assertThat(sweep.trials()).isEqualTo(60);
    assertThat(sweep.cutShort()).isFalse();
    assertThat(sweep.firstTrial()).isEqualTo(3);
    assertThat(sweep.lines()).allMatch(line -> line.trials() == 30);
    assertThat(outcome.records().get(3 + 4 * 2).why()).matches("[0-9.]+ ms: (not )?taken.*");
  }

  /** The line is cut in the middle: what was found until then is kept, and said to be less. */
  @Test
  void aSweepThatIsCutShortKeepsWhatItFound() throws IOException {
    Plan plan = plan(PULSE.replace("resolution: 0.5 ms}", "resolution: 0.5 ms, points: 30}"));
    StopSignal stop = new StopSignal();
    BenchRun run = BenchRun.of(plan, folder).stop(stop);
    run.listener(
        new RunListener() {
          @Override
          public void judged(Judged judged) {
            if (judged.vector().number() == 100) {
              stop.request("a test");
            }
          }

          @Override
          public void superseded(Judged judged) {}
        });
    assertThat(run.go().records()).hasSizeLessThan(110);
    SweepRecord sweep = sweeps(run).get(0);
    assertThat(sweep.trials()).isBetween(24, 27);
    assertThat(sweep.planned()).isEqualTo(60);
    assertThat(sweep.cutShort()).isTrue();
    assertThat(sweep.lines()).hasSize(24);
  }

  /** What is known of the register after a sweep is nothing; what follows establishes it anew. */
  @Test
  void whatATrialLeavesIsNotPredicted() throws IOException {
    Path file = folder.resolve("plan.yaml");
    Files.writeString(
        file,
        "plan: timing\ncard: "
            + HOLD
            + "\nsteps:\n  - drive: {SEL: 0}\n    sweep: "
            + PULSE
            + "\n  - drive: {LD: 0}\n  - drive: {D: 5, LD: 1}\n");
    Plan plan = PlanFile.read(file).value();
    var vectors = plan.vectors();
    vectors.skip(plan.vectorCount() - 2);
    int q = plan.card().busIndex("Q");
    assertThat(vectors.next().care()[q]).isZero();
    assertThat(vectors.next().care()[q]).isEqualTo(0xFFF);
  }

  @Test
  void aFixtureWithoutSequencesIsRefusedBeforeAnythingIsDriven() throws IOException {
    BenchRun run = BenchRun.of(plan(PULSE), folder).settings(s -> s.withProtocolMinor(0));
    assertThatThrownBy(run::go)
        .isInstanceOf(RefusedException.class)
        .hasMessageContaining("plan.yaml:4")
        .hasMessageContaining("a sweep")
        .hasMessageContaining("runs no timed sequences");
  }

  /** Not by this line is data taken. */
  @Test
  void anEdgeAtWhichNothingIsTakenIsRefused() throws IOException {
    Path file = folder.resolve("plan.yaml");
    String sweep = "{find: set-up, data: D, edge: {SEL: 0}}";
    Files.writeString(
        file, "plan: timing\ncard: " + HOLD + "\nsteps:\n  - drive: {LD: 0}\n    sweep: " + sweep);
    Plan plan = PlanFile.read(file).value();
    assertThatThrownBy(() -> PlanCheck.of(plan, done -> {}))
        .isInstanceOf(RefusedException.class)
        .hasMessageContaining("plan.yaml:4")
        .hasMessageContaining("whether D was taken");
  }

  private List<SweepRecord> sweeps(BenchRun run) {
    try (BenchLog log = BenchLog.openForReading(run.file())) {
      return log.sweeps(1);
    }
  }

  private Plan plan(String... sweeps) throws IOException {
    Path file = folder.resolve("plan.yaml");
    StringBuilder text = new StringBuilder("plan: timing\ncard: " + HOLD + "\nsteps:\n");
    for (String sweep : sweeps) {
      text.append("  - drive: {SEL: 0}\n    sweep: ").append(sweep).append('\n');
    }
    Files.writeString(file, text);
    return PlanFile.read(file).value();
  }
}
