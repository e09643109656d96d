package cardproof.run;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import cardproof.card.Card;
import cardproof.card.TestCards;
import cardproof.log.BenchLog;
import cardproof.log.RunEnd;
import cardproof.log.RunFilter;
import cardproof.log.RunSummary;
import cardproof.log.VectorRecord;
import cardproof.log.Verdict;
import cardproof.plan.Generators;
import cardproof.plan.Plan;
import cardproof.plan.PlanSketch;
import cardproof.run.BenchRun.Outcome;
import cardproof.sim.ResetCause;
import cardproof.sim.ScriptedCircuit;
import cardproof.sim.SimSettings;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** How runs end before their plan does, and what is left behind. */
@Timeout(value = 20, unit = TimeUnit.SECONDS, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class RunnerEndsTest {
  private static final long QUIET_US = 32_500;

  @TempDir private Path folder;

  private static Card plain() {
    return TestCards.card().input("A", 4).output("S", 4, "A").output("LAMP", 1).build();
  }

  private static Plan plan() {
    return PlanSketch.of(plain()).step(s -> s.each("A", Generators.random(4, 60, 3))).plan();
  }

  private static RunListener when(long number, Runnable then) {
    return each(
        judged -> {
          if (judged.vector().number() == number) {
            then.run();
          }
        });
  }

  private static RunListener each(Consumer<Judged> then) {
    return new RunListener() {
      @Override
      public void judged(Judged judged) {
        then.accept(judged);
      }

      @Override
      public void superseded(Judged judged) {
        // not of interest
      }
    };
  }

  private static void assertRestUntested(Outcome outcome, int judged) {
    List<Verdict> verdicts = outcome.verdicts();
    assertThat(verdicts).hasSizeGreaterThan(judged).hasSizeLessThan(60);
    assertThat(verdicts.subList(0, judged)).containsOnly(Verdict.PASS);
    assertThat(verdicts.subList(judged, verdicts.size())).containsOnly(Verdict.UNTESTED);
    for (VectorRecord record : outcome.records().subList(judged, verdicts.size())) {
      assertThat(record.why()).isEqualTo(outcome.ending().why());
      assertThat(record.moved()).isEmpty();
    }
    assertThat(outcome.toldTheSame()).isTrue();
    assertThat(outcome.down()).isTrue();
  }

  @Test
  void theStopSignalEndsItAndNamesItsFirstReason() {
    StopSignal stop = new StopSignal();
    Outcome outcome =
        BenchRun.of(plan(), folder)
            .stop(stop)
            .listener(
                when(
                    9,
                    () -> {
                      stop.request("Ctrl-C");
                      stop.request("again");
                    }))
            .go();
    assertThat(stop.isUrgent()).isTrue();
    assertThat(outcome.ending().end()).isEqualTo(RunEnd.STOPPED);
    assertThat(outcome.ending().why()).isEqualTo("stopped by the operator (Ctrl-C)");
    assertThat(outcome.ending().problem()).isEmpty();
    assertRestUntested(outcome, 10);
  }

  @Test
  void askedOnceTheVectorUnderWayComesToItsEnd() {
    StopSignal stop = new StopSignal();
    Outcome outcome =
        BenchRun.of(plan(), folder).stop(stop).listener(when(9, () -> stop.request("INT"))).go();
    assertThat(outcome.ending().why()).isEqualTo("stopped by the operator (INT)");
    assertRestUntested(outcome, 11);
  }

  @Test
  void aVectorThatWouldTakeLongerThanASecondIsNotWaitedFor() {
    Plan plan =
        PlanSketch.of(plain())
            .step(s -> s.drive("A", 0))
            .step(s -> s.drive("A", 1).timing(200_000, QUIET_US, 5_000_000))
            .plan();
    StopSignal stop = new StopSignal();
    BenchRun run = BenchRun.of(plan, folder).stop(stop).faults("S[0] stuck at ground");
    Outcome outcome = run.listener(when(0, () -> stop.request("INT"))).go();
    assertThat(outcome.verdicts()).containsExactly(Verdict.PASS, Verdict.UNTESTED);
    assertThat(outcome.down()).isTrue();
    assertThat(run.bench().nowNs()).isBetween(1_000_000_000L, 1_500_000_000L);
  }

  @Test
  void askedAgainWhileItWaitsForAVectorItStopsAtOnce() {
    Plan plan =
        PlanSketch.of(plain())
            .step(s -> s.drive("A", 0))
            .step(s -> s.drive("A", 1).timing(200_000, QUIET_US, 5_000_000))
            .plan();
    StopSignal stop = new StopSignal();
    BenchRun run = BenchRun.of(plan, folder).stop(stop).faults("S[0] stuck at ground");
    Outcome outcome =
        run.through(wire -> new TimedWire(wire, 1, 400_000_000L, () -> stop.request("again")))
            .listener(when(0, () -> stop.request("INT")))
            .go();
    assertThat(outcome.ending().why()).isEqualTo("stopped by the operator (INT)");
    assertThat(outcome.verdicts()).containsExactly(Verdict.PASS, Verdict.UNTESTED);
    assertThat(run.bench().nowNs()).isBetween(400_000_000L, 600_000_000L);
  }

  /** In virtual time, with this computer's clock 3 % slow: what the fixture counts is too much. */
  @Test
  void aFixtureWhoseClockIsFastIsFoundOut() {
    Runner[] runner = new Runner[1];
    Plan plan = PlanSketch.of(plain()).step(s -> s.each("A", Generators.random(4, 200, 3))).plan();
    Outcome outcome =
        BenchRun.of(plan, folder)
            .through(wire -> new TimedWire(wire, 0.97, Long.MAX_VALUE, () -> {}))
            .looking(r -> runner[0] = r)
            .go();
    assertThat(outcome.verdicts()).hasSize(200).containsOnly(Verdict.PASS);
    assertThat(runner[0].clocks().warning().orElseThrow())
        .contains("runs 3.1 % faster", "too long: 100 ms on it are 97.0 ms");
  }

  @Test
  void ofOneClockThereIsNoDrift() {
    Runner[] runner = new Runner[1];
    Plan plan = PlanSketch.of(plain()).step(s -> s.each("A", Generators.random(4, 200, 3))).plan();
    BenchRun.of(plan, folder).looking(r -> runner[0] = r).go();
    assertThat(runner[0].clocks().drift().orElseThrow()).isBetween(-0.001, 0.001);
    assertThat(runner[0].clocks().warning()).isEmpty();
  }

  /** An exception of a listener, say: the log may take its time, the drives may not. */
  @Test
  void anErrorInAListenerDropsTheDrivesBeforeAnythingElse() {
    BenchRun run = BenchRun.of(plan(), folder);
    run.listener(
        when(
            7,
            () -> {
              throw new OutOfMemoryError("as planned");
            }));
    assertThatThrownBy(run::go).isInstanceOf(OutOfMemoryError.class);
    assertThat(run.down()).as("down before log and session are closed").isTrue();
    try (BenchLog log = BenchLog.openForReading(run.file())) {
      RunSummary summary = log.runs(RunFilter.real().bench(RunFilter.Bench.SIMULATED)).get(0);
      assertThat(summary.end()).isEqualTo(RunEnd.FAILED);
      assertThat(summary.counts().get(Verdict.PASS)).isEqualTo(8);
    }
  }

  @Test
  void aStopBeforeTheFirstVectorDrivesNothing() {
    StopSignal stop = new StopSignal();
    stop.request("Ctrl-C");
    Outcome outcome = BenchRun.of(plan(), folder).stop(stop).go();
    assertThat(outcome.ending().end()).isEqualTo(RunEnd.STOPPED);
    assertThat(outcome.records()).isEmpty();
  }

  @Test
  void stopOnFailEndsAtTheFirstFailureAndRunsNothingAfterIt() {
    BenchRun run = BenchRun.of(plan(), folder).faults("S[0] stuck at ground").stopOnFail();
    Outcome outcome = run.go();
    assertThat(outcome.ending().end()).isEqualTo(RunEnd.STOPPED);
    assertThat(outcome.ending().why()).contains("first failure");
    int failed = outcome.verdicts().indexOf(Verdict.WRONG);
    assertThat(failed).isGreaterThanOrEqualTo(0);
    assertThat(outcome.verdicts().subList(0, failed)).doesNotContain(Verdict.UNTESTED);
    assertThat(outcome.verdicts().subList(failed + 1, outcome.verdicts().size()))
        .isNotEmpty()
        .containsOnly(Verdict.UNTESTED);
    assertThat(outcome.down()).isTrue();
  }

  @Test
  void stopOnFailEndsAlsoAtALimitThatOnlyTheHostKnows() {
    Plan plan =
        PlanSketch.of(plain())
            .step(s -> s.each("A", Generators.all(4)).busSettleUs("S", 5_000))
            .plan();
    Outcome outcome = BenchRun.of(plan, folder).stopOnFail().go();
    assertThat(outcome.ending().end()).isEqualTo(RunEnd.STOPPED);
    assertThat(outcome.verdicts())
        .startsWith(Verdict.PASS, Verdict.LATE)
        .contains(Verdict.UNTESTED);
  }

  /** The fixture holds at any late line; a lamp that nothing is expected of is no failure. */
  @Test
  void stopOnFailGoesOnPastALateLineOfWhichNothingIsExpected() {
    Plan plan =
        PlanSketch.of(plain())
            .step(s -> s.drive("A", 0).timing(50_000, QUIET_US, 200_000))
            .step(s -> s.drive("A", 0))
            .plan();
    ScriptedCircuit card = new ScriptedCircuit().flip(4, 120);
    Outcome outcome = BenchRun.of(plan, folder).on(card.bench(4, 5)).stopOnFail().go();
    assertThat(outcome.records().get(0).moved()).extracting(m -> m.line()).containsExactly(8);
    assertThat(outcome.ending()).isEqualTo(RunEnding.finished());
    assertThat(outcome.verdicts()).containsExactly(Verdict.PASS, Verdict.PASS);
  }

  @Test
  void stopOnFailEndsAtAVerdictThatWasTakenBack() {
    Plan plan = PlanSketch.of(plain()).repeat(8, "same", r -> r.step(s -> s.drive("A", 0))).plan();
    SimSettings slow = SimSettings.of(1, "01").withSlots(2).withLineDelayUs(200_000);
    Outcome sound =
        BenchRun.of(plan, folder).on(new ScriptedCircuit().bench(4, 5, slow)).stopOnFail().go();
    assertThat(sound.verdicts()).hasSize(8).containsOnly(Verdict.PASS);
    double gapMs = afterMs(sound.records().get(1));
    assertThat(gapMs).isLessThan(sound.records().get(2).startUs() / 1e3 - 5);

    Outcome outcome =
        BenchRun.of(plan, folder)
            .on(new ScriptedCircuit().flip(0, gapMs, gapMs + 3).bench(4, 5, slow))
            .stopOnFail()
            .go();
    assertThat(outcome.ending().end()).isEqualTo(RunEnd.STOPPED);
    assertThat(outcome.verdicts()).startsWith(Verdict.PASS, Verdict.UNSETTLED);
    assertThat(outcome.verdicts()).contains(Verdict.UNTESTED);
  }

  private static double afterMs(VectorRecord record) {
    return (record.startUs() + record.durationUs()) / 1e3 + 2;
  }

  @Test
  void aResetInTheMiddleLosesTheLinkAndLeavesTheRestUntested() {
    BenchRun run = BenchRun.of(plan(), folder);
    Outcome outcome =
        run.listener(when(14, () -> run.bench().resetFixture(ResetCause.BROWN_OUT))).go();
    assertThat(outcome.ending().end()).isEqualTo(RunEnd.LINK_LOST);
    assertThat(outcome.ending().why()).contains("restarted", "brown-out");
    assertThat(outcome.ending().problem().orElseThrow().next())
        .contains("another supply than the coils");
    assertRestUntested(outcome, 15);
  }

  @Test
  void aLineThatGoesDeadLosesTheLink() {
    DeadLine[] line = new DeadLine[1];
    Outcome outcome =
        BenchRun.of(plan(), folder)
            .through(
                wire -> {
                  line[0] = new DeadLine(wire);
                  return line[0];
                })
            .listener(when(14, () -> line[0].die()))
            .go();
    assertThat(outcome.ending().end()).isEqualTo(RunEnd.LINK_LOST);
    assertRestUntested(outcome, 15);
  }

  @Test
  void aResetInTheRestAfterTheLastVectorIsNotTakenForAFinish() {
    Plan plan =
        PlanSketch.of(plain())
            .step(s -> s.drive("A", 1).timing(200_000, 2_000_000, 2_500_000))
            .plan();
    BenchRun run = BenchRun.of(plan, folder);
    Outcome outcome =
        run.listener(when(0, () -> run.bench().resetFixture(ResetCause.RESET_PIN))).go();
    assertThat(outcome.ending().end()).isEqualTo(RunEnd.LINK_LOST);
    assertThat(outcome.verdicts()).as("the result in the log stands").containsExactly(Verdict.PASS);
  }

  @Test
  void aTripBetweenTwoStepsIsNotTakenForTheEndOfThePlan() {
    SimSettings two = SimSettings.of(1, "01").withSlots(2);
    Plan plan = PlanSketch.of(plain()).repeat(6, "same", r -> r.step(s -> s.drive("A", 0))).plan();
    // two steps of 232.5 ms are all that is queued when the supply goes; nobody looks until then
    ScriptedCircuit card = new ScriptedCircuit().tripSupply(500);
    Outcome outcome =
        BenchRun.of(plan, folder)
            .on(card.bench(4, 5, two))
            .through(wire -> new SluggishWire(wire, 100_000_000L, 600_000_000L))
            .go();
    assertThat(outcome.ending().end()).isEqualTo(RunEnd.TRIPPED);
    assertThat(outcome.ending().why()).contains("supply");
    assertThat(outcome.verdicts()).containsExactly(Verdict.PASS, Verdict.PASS);
  }
}
