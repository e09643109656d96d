package cardproof.run;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.TestCards;
import cardproof.log.RunEnd;
import cardproof.log.VectorRecord;
import cardproof.log.Verdict;
import cardproof.plan.Generators;
import cardproof.plan.Plan;
import cardproof.plan.PlanSketch;
import cardproof.run.BenchRun.Outcome;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Cards that hold something: after a failure nothing is judged that hangs on it. */
class RunnerStateTest {
  @TempDir private Path folder;

  private static Card register() {
    return TestCards.card()
        .input("D", 4)
        .input("LD", 1)
        .output("Q", 4, "R")
        .output("ECHO", 4, "D")
        .state("R", 4, "0", "LD ? D : R")
        .build();
  }

  /** Pattern, pulse on, pulse off; then a look at what is held. */
  private static PlanSketch loads(Long... words) {
    return PlanSketch.of(register())
        .step(s -> s.title("load").each("D", Generators.list(List.of(words))).pulse("LD", 1))
        .step(s -> s.title("look").drive("D", 0));
  }

  private static List<Integer> judgedBits(Outcome outcome) {
    return outcome.records().stream().map(record -> record.cared().cardinality()).toList();
  }

  @Test
  void aSoundRegisterIsJudgedAllTheWay() {
    Outcome outcome = BenchRun.of(loads(5L, 10L).plan(), folder).go();
    assertThat(outcome.verdicts()).hasSize(7).containsOnly(Verdict.PASS);
    assertThat(judgedBits(outcome)).containsOnly(8);
    assertThat(outcome.tally().notJudgedBits()).isZero();
  }

  @Test
  void afterAFailureHeldBitsAreNotJudgedUntilALoadEstablishesThemAgain() {
    Outcome outcome = BenchRun.of(loads(1L, 2L).plan(), folder).faults("Q[0] stuck at ground").go();
    assertThat(outcome.verdicts())
        .containsExactly(
            Verdict.PASS, // D=1, Q still 0
            Verdict.WRONG, // loading 1: Q[0] stays 0
            Verdict.PASS, // what it holds is anyone's guess
            Verdict.PASS,
            Verdict.PASS, // loading 2
            Verdict.PASS,
            Verdict.PASS);
    assertThat(judgedBits(outcome)).containsExactly(8, 8, 4, 4, 8, 8, 8);
    assertThat(outcome.tally().notJudgedBits()).isEqualTo(8);
    assertThat(outcome.toldTheSame()).isTrue();
  }

  @Test
  void aFailureOfALineThatHoldsNothingMakesTheStateUnknownToo() {
    Outcome outcome =
        BenchRun.of(loads(1L, 2L).plan(), folder).faults("ECHO[1] stuck at supply").go();
    assertThat(outcome.verdicts().get(0)).isEqualTo(Verdict.WRONG);
    assertThat(judgedBits(outcome)).startsWith(8, 8, 4);
  }

  @Test
  void aCardWithoutStateGoesOnBeingJudgedInFull() {
    Card plain = TestCards.card().input("A", 4).output("S", 4, "A").build();
    Plan plan = PlanSketch.of(plain).step(s -> s.each("A", Generators.all(4))).plan();
    Outcome outcome = BenchRun.of(plan, folder).faults("S[0] stuck at ground").go();
    assertThat(judgedBits(outcome)).hasSize(16).containsOnly(4);
    assertThat(outcome.tally().failed()).isEqualTo(8);
  }

  /** Where the whole truth rests, half of it may go round for ever. */
  @Test
  void aStateThatIsHalfKnownAfterAFailureEndsNoRun() {
    Card twins =
        TestCards.card()
            .input("LD", 1)
            .input("SWAP", 1)
            .output("X", 1, "P")
            .output("Y", 1, "R")
            .output("LAMP", 1, "LD")
            .state("P", 1, "0", "SWAP ? R : (LD ? 0 : P)")
            .state("R", 1, "0", "SWAP ? P : R")
            .build();
    Plan plan =
        PlanSketch.of(twins)
            .step(s -> s.drive("LD", 0).expect("LAMP", "1"))
            .step(s -> s.drive("LD", 1))
            .step(s -> s.drive("LD", 0).drive("SWAP", 1))
            .plan();
    Outcome outcome = BenchRun.of(plan, folder).go();
    assertThat(outcome.ending().end()).isEqualTo(RunEnd.FINISHED);
    assertThat(outcome.verdicts()).containsExactly(Verdict.WRONG, Verdict.PASS, Verdict.PASS);
    assertThat(judgedBits(outcome)).containsExactly(3, 2, 1);
  }

  @Test
  void recordsKeepWhatCouldBeExpectedWhenTheyWereJudged() {
    Outcome outcome = BenchRun.of(loads(1L).plan(), folder).faults("Q[0] stuck at ground").go();
    VectorRecord after = outcome.records().get(2);
    assertThat(after.wanted()).as("ECHO alone").isEqualTo(after.seen());
    assertThat(after.wanted().cardinality()).isEqualTo(1);
  }
}
