package cardproof.run;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.TestCards;
import cardproof.fixture.Observation;
import cardproof.log.Verdict;
import cardproof.plan.Generators;
import cardproof.plan.PlanSketch;
import cardproof.plan.Vector;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The counts and the first failures of a run. */
class ListenersTest {
  private static final long QUIET_US = 32_500;
  private static final Card CARD =
      TestCards.card().input("A", 4).output("S", 4, "A").output("LAMP", 2).build();

  private final List<Vector> vectors = new ArrayList<>();

  ListenersTest() {
    PlanSketch.of(CARD)
        .step(s -> s.each("A", Generators.all(4)))
        .plan()
        .vectors()
        .forEachRemaining(vectors::add);
  }

  private Judged judged(int number, Verdict verdict, long gapUs) {
    long[] none = new long[3];
    Observation seen =
        new Observation(
            0, 50_000, 0, gapUs, true, true, false, false, none, none, none, none, List.of());
    WrongBit bit = new WrongBit(CARD.line("S[1]").orElseThrow(), "wanted 1, seen 0");
    Judgement judgement =
        verdict == Verdict.PASS
            ? Judgement.pass()
            : verdict == Verdict.UNTESTED
                ? Judgement.untested("stopped")
                : new Judgement(verdict, "because", List.of(bit));
    return new Judged(vectors.get(number), seen, judgement);
  }

  private Judged judged(int number, Verdict verdict) {
    return judged(number, verdict, 0);
  }

  @Test
  void verdictsTimesAndOpenBitsAreCounted() {
    Tally tally = new Tally();
    tally.judged(judged(0, Verdict.PASS));
    tally.judged(judged(1, Verdict.WRONG));
    tally.judged(judged(2, Verdict.PASS));
    tally.judged(judged(3, Verdict.UNTESTED));
    assertThat(tally.judgedVectors()).isEqualTo(4);
    assertThat(tally.failed()).isEqualTo(1);
    assertThat(tally.count(Verdict.PASS)).isEqualTo(2);
    assertThat(tally.count(Verdict.LATE)).isZero();
    assertThat(tally.cardUs()).isEqualTo(200_000);
    assertThat(tally.notJudgedBits()).isEqualTo(6);
  }

  @Test
  void aVerdictTakenBackIsCountedOnceUnderItsLastName() {
    Tally tally = new Tally();
    tally.judged(judged(0, Verdict.PASS));
    tally.superseded(judged(0, Verdict.UNSETTLED));
    tally.superseded(judged(0, Verdict.CHATTER));
    assertThat(tally.judgedVectors()).isEqualTo(1);
    assertThat(tally.count(Verdict.PASS)).isZero();
    assertThat(tally.count(Verdict.UNSETTLED)).isZero();
    assertThat(tally.count(Verdict.CHATTER)).isEqualTo(1);
    assertThat(tally.failed()).isEqualTo(1);
  }

  @Test
  void onlySoManyFailuresAreKeptAndNoPasses() {
    FirstFailures failures = new FirstFailures(2);
    failures.judged(judged(0, Verdict.WRONG));
    failures.judged(judged(1, Verdict.PASS));
    failures.judged(judged(2, Verdict.UNTESTED));
    failures.judged(judged(3, Verdict.LATE));
    failures.judged(judged(4, Verdict.WRONG));
    assertThat(failures.failures()).extracting(Failure::vector).containsExactly(1L, 4L);
  }

  @Test
  void aFailureTakenBackIsReplacedAndAPassTakenBackIsAdded() {
    FirstFailures failures = new FirstFailures(5);
    failures.judged(judged(0, Verdict.WRONG));
    failures.superseded(judged(0, Verdict.UNSETTLED));
    failures.judged(judged(1, Verdict.PASS));
    failures.superseded(judged(1, Verdict.UNSETTLED));
    assertThat(failures.failures())
        .extracting(f -> f.vector() + " " + f.verdict())
        .containsExactly("1 UNSETTLED", "2 UNSETTLED");
  }

  @Test
  void aFailureShowsOnlyTheBusesItRestsOnWithOpenBitsAsX() {
    Failure failure = Failure.of(judged(5, Verdict.WRONG));
    assertThat(failure.vector()).isEqualTo(6);
    assertThat(failure.at()).isEqualTo("plan.yaml:1#6");
    assertThat(failure.drives()).isEqualTo("A=0x5");
    assertThat(failure.buses()).containsExactly(new Failure.BusView("S", "0x5", "0x0"));
  }
}
