package cardproof.run;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import cardproof.card.Card;
import cardproof.card.TestCards;
import cardproof.log.MovedLine;
import cardproof.log.RunEnd;
import cardproof.log.VectorRecord;
import cardproof.log.Verdict;
import cardproof.plan.Plan;
import cardproof.plan.PlanSketch;
import cardproof.run.BenchRun.Outcome;
import cardproof.sim.ScriptedCircuit;
import cardproof.sim.SimSettings;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Lines that move after their vector was judged, on cards that do what is written down here. */
@Timeout(value = 20, unit = TimeUnit.SECONDS, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class RunnerSupersedeTest {
  private static final int S0 = 4;
  private static final int VECTORS = 4;

  @TempDir private Path folder;

  /** So slow a line, and so few slots, that the fixture waits a while between every two steps. */
  private static SimSettings slow() {
    return SimSettings.of(1, "01").withSlots(2).withLineDelayUs(200_000);
  }

  private static Card card() {
    return TestCards.card().input("A", 4).output("S", 4, "A").build();
  }

  /** Each step's first vector is watched to its end, so all last equally long. */
  private static Plan plan(UnaryOperator<PlanSketch.StepSketch> more) {
    PlanSketch sketch = PlanSketch.of(card());
    for (int i = 0; i < VECTORS; i++) {
      sketch.step(s -> more.apply(s.drive("A", 0)));
    }
    return sketch.plan();
  }

  private Outcome run(Plan plan, ScriptedCircuit circuit) {
    return BenchRun.of(plan, folder).on(circuit.bench(4, 4, slow())).go();
  }

  /** So many milliseconds after vector {@code number} of a card that does nothing. */
  private double msAfter(int number, double ms) {
    VectorRecord record = run(plan(s -> s), new ScriptedCircuit()).records().get(number);
    return (record.startUs() + record.durationUs()) / 1e3 + ms;
  }

  @Test
  void aLineThatMovesBeforeTheNextStepReopensItsVector() {
    double ms = msAfter(1, 2);
    Outcome outcome = run(plan(s -> s), new ScriptedCircuit().flip(0, ms, ms + 3));
    assertThat(outcome.ending()).isEqualTo(RunEnding.finished());
    assertThat(outcome.verdicts())
        .containsExactly(Verdict.PASS, Verdict.UNSETTLED, Verdict.PASS, Verdict.PASS);
    assertThat(outcome.superseded()).hasSize(1);
    assertThat(outcome.superseded().get(0).record().verdict()).isEqualTo(Verdict.PASS);
    assertThat(outcome.superseded().get(0).record().number()).isEqualTo(1);
    assertThat(outcome.heard().superseded).hasSize(1);
    assertThat(outcome.heard().superseded.get(0).judgement().bits())
        .extracting(bit -> bit.line().name())
        .containsExactly("S[0]");
    assertThat(outcome.tally().failed()).isEqualTo(1);
    assertThat(outcome.failures()).extracting(Failure::vector).containsExactly(2L);
    assertThat(outcome.toldTheSame()).isTrue();
  }

  @Test
  void theLastVectorIsReopenedByWhatMovesInTheRestAfterIt() {
    double ms = msAfter(VECTORS - 1, 20);
    Outcome outcome = run(plan(s -> s), new ScriptedCircuit().flip(2, ms));
    assertThat(outcome.ending()).isEqualTo(RunEnding.finished());
    assertThat(outcome.verdicts()).endsWith(Verdict.PASS, Verdict.UNSETTLED);
    assertThat(outcome.failures().get(0).bits())
        .extracting(bit -> bit.line().name())
        .containsExactly("S[2]");
    assertThat(outcome.toldTheSame()).isTrue();
  }

  @Test
  void aLineThatMovedOnHasNoSettleTime() {
    double endMs = msAfter(1, 0);
    ScriptedCircuit circuit =
        new ScriptedCircuit().flip(0, endMs - 220, endMs - 200, endMs + 2, endMs + 5);
    circuit.flip(1, endMs - 220, endMs - 200);
    Outcome outcome = run(plan(s -> s), circuit);
    assertThat(outcome.verdicts().get(1)).isEqualTo(Verdict.UNSETTLED);
    assertThat(outcome.records().get(1).moved())
        .extracting(MovedLine::line, MovedLine::censored)
        .containsExactly(tuple(S0, true), tuple(S0 + 1, false));
    assertThat(outcome.superseded().get(0).record().moved()).noneMatch(MovedLine::censored);
  }

  @Test
  void aWrongVectorThatMovesOnIsUnsettledFromThenOn() {
    Plan wrong = plan(s -> s.expect("S", "8"));
    double ms = msAfter(1, 2);
    Outcome outcome = run(wrong, new ScriptedCircuit().flip(0, ms, ms + 3));
    assertThat(outcome.verdicts())
        .containsExactly(Verdict.WRONG, Verdict.UNSETTLED, Verdict.WRONG, Verdict.WRONG);
    assertThat(outcome.tally().failed()).isEqualTo(4);
    assertThat(outcome.failures()).hasSize(4);
    assertThat(outcome.failures().get(1).verdict()).isEqualTo(Verdict.UNSETTLED);
    assertThat(outcome.toldTheSame()).isTrue();
  }

  @Test
  void thatAnUnsettledVectorMovesOnIsNoNews() {
    double ms = msAfter(1, 0);
    ScriptedCircuit circuit = new ScriptedCircuit().flip(0, ms - 10, ms + 2, ms + 10, ms + 13);
    Outcome outcome = run(plan(s -> s), circuit);
    assertThat(outcome.verdicts().get(1)).isEqualTo(Verdict.UNSETTLED);
    assertThat(outcome.superseded()).isEmpty();
    assertThat(outcome.toldTheSame()).isTrue();
  }

  @Test
  void chatterBetweenTwoStepsBelongsToTheStepBefore() {
    double ms = msAfter(1, 2);
    ScriptedCircuit circuit = new ScriptedCircuit();
    for (int i = 0; i < 9; i++) {
      circuit.flip(3, ms + 11 * i);
    }
    Outcome outcome = run(plan(s -> s), circuit);
    assertThat(outcome.ending().end()).isEqualTo(RunEnd.TRIPPED);
    assertThat(outcome.verdicts()).startsWith(Verdict.PASS, Verdict.CHATTER);
    assertThat(outcome.verdicts().subList(2, outcome.verdicts().size()))
        .containsOnly(Verdict.UNTESTED);
    assertThat(outcome.superseded()).hasSize(1);
    assertThat(outcome.failures().get(0).why()).startsWith("S[3] (");
    assertThat(outcome.toldTheSame()).isTrue();
    assertThat(outcome.down()).isTrue();
  }

  @Test
  void chatterInTheRestAfterTheLastVectorTripsTheRun() {
    double ms = msAfter(VECTORS - 1, 1);
    ScriptedCircuit circuit = new ScriptedCircuit();
    for (int i = 0; i < 9; i++) {
      circuit.flip(3, ms + 11 * i);
    }
    Outcome outcome = run(plan(s -> s), circuit);
    assertThat(outcome.ending().end()).isEqualTo(RunEnd.TRIPPED);
    assertThat(outcome.verdicts())
        .containsExactly(Verdict.PASS, Verdict.PASS, Verdict.PASS, Verdict.CHATTER);
    assertThat(outcome.toldTheSame()).isTrue();
  }

  @Test
  void whatMovedBeforeAStepThatTripsBelongsToTheStepBeforeIt() {
    double ms = msAfter(1, 2);
    VectorRecord next = run(plan(s -> s), new ScriptedCircuit()).records().get(2);
    ScriptedCircuit circuit = new ScriptedCircuit().flip(0, ms, ms + 3);
    for (int i = 1; i <= 9; i++) {
      circuit.flip(3, next.startUs() / 1e3 + 10 * i);
    }
    Outcome outcome = run(plan(s -> s), circuit);
    assertThat(outcome.ending().end()).isEqualTo(RunEnd.TRIPPED);
    assertThat(outcome.verdicts()).startsWith(Verdict.PASS, Verdict.UNSETTLED, Verdict.CHATTER);
    assertThat(outcome.superseded()).hasSize(1);
    assertThat(outcome.toldTheSame()).isTrue();
  }

  @Test
  void aReopenedVectorMakesTheStateUnknown() {
    Card register =
        TestCards.card().input("D", 4).output("Q", 4, "R").state("R", 4, "0", "R & D").build();
    PlanSketch sketch = PlanSketch.of(register);
    for (int i = 0; i < VECTORS; i++) {
      sketch.step(s -> s.drive("D", 15));
    }
    double ms = msAfter(1, 2);
    Outcome outcome = run(sketch.plan(), new ScriptedCircuit().flip(0, ms, ms + 3));
    assertThat(outcome.verdicts())
        .containsExactly(Verdict.PASS, Verdict.UNSETTLED, Verdict.PASS, Verdict.PASS);
    assertThat(outcome.records())
        .extracting(record -> record.cared().cardinality())
        .containsExactly(4, 4, 0, 0);
  }
}
