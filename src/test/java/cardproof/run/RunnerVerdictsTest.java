package cardproof.run;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.Sharing;
import cardproof.card.TestCards;
import cardproof.log.RunEnd;
import cardproof.log.VectorRecord;
import cardproof.log.Verdict;
import cardproof.plan.Generators;
import cardproof.plan.Plan;
import cardproof.plan.PlanSketch;
import cardproof.run.BenchRun.Outcome;
import java.nio.file.Path;
import java.util.BitSet;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Whole runs of cards without state on the simulated bench, sound and with faults put in. */
class RunnerVerdictsTest {
  private static final long QUIET_US = 32_500;

  @TempDir private Path folder;

  private static Card sum(int width) {
    return TestCards.card()
        .input("A", width)
        .input("B", width)
        .output("S", width, "A + B")
        .output("CO", 1, "(A + B) >> " + width)
        .build();
  }

  private static Plan plan(Card card) {
    return PlanSketch.of(card)
        .step(s -> s.title("nothing").drive("A", 0).drive("B", 0))
        .step(s -> s.title("walk").each("A", Generators.walkingOnes(4)))
        .step(s -> s.title("random").each("A B", Generators.random(8, 40, 3)))
        .plan();
  }

  @Test
  void aSoundCardPassesEveryVector() {
    Outcome outcome = BenchRun.of(plan(sum(4)), folder).go();
    assertThat(outcome.ending()).isEqualTo(RunEnding.finished());
    assertThat(outcome.verdicts()).hasSize(45).containsOnly(Verdict.PASS);
    assertThat(outcome.failures()).isEmpty();
    assertThat(outcome.toldTheSame()).isTrue();
    assertThat(outcome.down()).isTrue();
    for (VectorRecord record : outcome.records()) {
      assertThat(record.wanted()).isEqualTo(record.seen());
      assertThat(record.cared().cardinality()).isEqualTo(5);
    }
  }

  @Test
  void aStuckLineIsWrongWhereverItMatters() {
    Outcome outcome = BenchRun.of(plan(sum(4)), folder).faults("S[2] stuck at ground").go();
    assertThat(outcome.ending().end()).isEqualTo(RunEnd.FINISHED);
    for (VectorRecord record : outcome.records()) {
      boolean matters = record.wanted().get(8 + 2);
      assertThat(record.verdict()).isEqualTo(matters ? Verdict.WRONG : Verdict.PASS);
    }
    assertThat(outcome.tally().failed()).isBetween(10L, 35L);
    Failure first = outcome.failures().get(0);
    assertThat(first.at()).isEqualTo("plan.yaml:2#3");
    assertThat(first.drives()).isEqualTo("A=0x4 B=0x0");
    assertThat(first.buses()).containsExactly(new Failure.BusView("S", "0x4", "0x0"));
    assertThat(first.bits()).extracting(bit -> bit.line().name()).containsExactly("S[2]");
    assertThat(outcome.toldTheSame()).isTrue();
  }

  @Test
  void exchangedLinesAreFoundByTheWalk() {
    Outcome outcome = BenchRun.of(plan(sum(4)), folder).faults("A[1] exchanged with A[2]").go();
    assertThat(outcome.verdicts().subList(0, 5))
        .containsExactly(Verdict.PASS, Verdict.PASS, Verdict.WRONG, Verdict.WRONG, Verdict.PASS);
    assertThat(outcome.failures().get(0).buses())
        .containsExactly(new Failure.BusView("S", "0x2", "0x4"));
  }

  @Test
  void rightAfterTheLimitIsLate() {
    Plan plan =
        PlanSketch.of(sum(4))
            .step(s -> s.drive("A", 0).timing(5_000, QUIET_US, 150_000))
            .step(s -> s.drive("A", 7).timing(5_000, QUIET_US, 150_000))
            .step(s -> s.drive("A", 7).timing(5_000, QUIET_US, 150_000))
            .plan();
    Outcome outcome = BenchRun.of(plan, folder).go();
    assertThat(outcome.verdicts()).containsExactly(Verdict.PASS, Verdict.LATE, Verdict.PASS);
    assertThat(outcome.failures().get(0).bits())
        .hasSize(3)
        .allMatch(bit -> bit.what().endsWith("limit 5.0 ms"));
  }

  @Test
  void aLineThatHadToHoldStillIsDisturbed() {
    Plan plan =
        PlanSketch.of(sum(4))
            .step(s -> s.drive("A", 1))
            .step(s -> s.drive("A", 3).still("CO"))
            .step(s -> s.drive("A", 7).still("S"))
            .plan();
    Outcome outcome = BenchRun.of(plan, folder).go();
    assertThat(outcome.verdicts()).containsExactly(Verdict.PASS, Verdict.PASS, Verdict.DISTURBED);
    assertThat(outcome.failures().get(0).bits())
        .extracting(bit -> bit.line().name())
        .containsExactly("S[2]");
  }

  @Test
  void stillMovingAtTheEndIsUnsettledAndGivesNoSettleTime() {
    Plan plan =
        PlanSketch.of(sum(4)).step(s -> s.drive("A", 0xF).timing(1_000, 20_000, 21_000)).plan();
    Outcome outcome = BenchRun.of(plan, folder).go();
    assertThat(outcome.verdicts()).containsExactly(Verdict.UNSETTLED);
    assertThat(outcome.records().get(0).moved()).isNotEmpty().allMatch(moved -> moved.censored());
    assertThat(outcome.superseded()).as("that it moves on is no news").isEmpty();
  }

  @Test
  void aLineThatFeedsItselfTripsAndDropsEveryDrive() {
    Card card =
        TestCards.card()
            .input("RUN", 1)
            .input("EN", 1)
            .output("Y", 1, "C")
            .state("C", 1, "0", "RUN & EN ? ~C : C")
            .build();
    Plan plan =
        PlanSketch.of(card)
            .step(s -> s.drive("RUN", 0).drive("EN", 0))
            .step(s -> s.drive("RUN", 1))
            .repeat(30, "more", r -> r.step(s -> s.drive("RUN", 0)))
            .plan();
    assertThat(BenchRun.of(plan, folder).go().verdicts()).hasSize(32).containsOnly(Verdict.PASS);

    Outcome outcome = BenchRun.of(plan, folder).faults("EN stuck at supply").go();
    assertThat(outcome.ending().end()).isEqualTo(RunEnd.TRIPPED);
    assertThat(outcome.ending().problem().orElseThrow().next()).contains("feeds its own input");
    assertThat(outcome.down()).isTrue();
    assertThat(outcome.verdicts())
        .startsWith(Verdict.PASS, Verdict.CHATTER, Verdict.UNTESTED)
        .hasSizeLessThan(32);
    assertThat(outcome.verdicts().subList(2, outcome.verdicts().size()))
        .containsOnly(Verdict.UNTESTED);
    assertThat(outcome.failures().get(0).why()).startsWith("Y (J3.1) goes on changing");
    assertThat(outcome.records().get(1).moved().get(0).moves()).isEqualTo(8);
    assertThat(outcome.toldTheSame()).isTrue();
  }

  @Test
  void theFirstOfEachStepAndEveryTwentiethAreWatchedToTheirEnd() {
    Outcome outcome = BenchRun.of(plan(sum(4)), folder).go();
    BitSet watched = new BitSet();
    for (VectorRecord record : outcome.records()) {
      watched.set((int) record.number(), record.durationUs() == 232_500);
    }
    assertThat(watched.stream().boxed().toList()).isEqualTo(List.of(0, 1, 5, 20, 40));
  }

  @Test
  void whatTheFixtureMovesItselfIsMarked() {
    Card card =
        TestCards.card().input("SEL", 1).shared("D", 2, Sharing.WIRED_OR, "SEL ? 2 : 0").build();
    Plan plan =
        PlanSketch.of(card)
            .step(s -> s.drive("D", 1))
            .step(s -> s.drive("SEL", 1))
            .step(s -> s.release("D"))
            .plan();
    Outcome outcome = BenchRun.of(plan, folder).go();
    assertThat(outcome.verdicts()).containsOnly(Verdict.PASS);
    assertThat(outcome.records())
        .extracting(r -> r.moved().get(0).line() + " " + r.moved().get(0).byFixture())
        .containsExactly("1 true", "2 false", "1 true");
  }
}
