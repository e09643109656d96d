package cardproof.run;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.card.TestCards;
import cardproof.fixture.MovedBit;
import cardproof.fixture.Observation;
import cardproof.log.Verdict;
import cardproof.plan.PlanSketch;
import cardproof.plan.Vector;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Verdicts and their order, on observations written out. */
class JudgeTest {
  /** S is judged, CO has to hold still, LAMP is watched and nothing is expected of it. */
  private static final Card CARD =
      TestCards.card()
          .input("A", 4)
          .output("S", 4, "A")
          .output("CO", 1, "0")
          .output("LAMP", 1)
          .build();

  private static final long LIMIT_US = 100_000;
  private static final long QUIET_US = 30_000;
  private static final long WATCH_US = 200_000;

  private static Vector vector(UnaryOperator<PlanSketch.StepSketch> more) {
    return PlanSketch.of(CARD)
        .step(s -> more.apply(s.drive("A", 5).still("CO").timing(LIMIT_US, QUIET_US, WATCH_US)))
        .plan()
        .vectors()
        .next();
  }

  private static Vector vector() {
    return vector(s -> s);
  }

  private static Line line(String name) {
    return CARD.line(name).orElseThrow();
  }

  private static MovedBit moved(String name, long lastUs, int moves) {
    return new MovedBit(line(name), true, 10_000, lastUs, 2 * moves - 1, moves);
  }

  private static Observation seen(boolean quiet, long s, MovedBit... moved) {
    return new Observation(
        0,
        WATCH_US,
        0,
        0,
        quiet,
        false,
        false,
        false,
        new long[4],
        new long[] {0, s, 0, 0},
        new long[4],
        new long[4],
        List.of(moved));
  }

  private static Judgement judged(Observation seen) {
    return new Judge(CARD).judge(vector(), seen);
  }

  @Test
  void rightAndInTimePasses() {
    Judgement judgement = judged(seen(true, 5, moved("S[0]", LIMIT_US, 1)));
    assertThat(judgement).isEqualTo(Judgement.pass());
  }

  /**
   * All 32 ways in which the five things that can be wrong come together: the gravest is given.
   * Chatter takes a line that is still moving, so many moves alone are none.
   */
  @Test
  void ofSeveralTheGravestIsGiven() {
    for (int bits = 0; bits < 32; bits++) {
      boolean many = (bits & 1) != 0;
      boolean moving = (bits & 2) != 0;
      boolean wrong = (bits & 4) != 0;
      boolean late = (bits & 8) != 0;
      boolean disturbed = (bits & 16) != 0;
      List<MovedBit> moved = new ArrayList<>();
      moved.add(moved("S[0]", late ? LIMIT_US + 1 : LIMIT_US, 1));
      moved.add(moved("LAMP", moving ? WATCH_US - 5 : LIMIT_US, many ? 4 : 3));
      if (disturbed) {
        moved.add(moved("CO", 20_000, 1));
      }
      Verdict wanted =
          moving && many
              ? Verdict.CHATTER
              : moving
                  ? Verdict.UNSETTLED
                  : wrong
                      ? Verdict.WRONG
                      : late ? Verdict.LATE : disturbed ? Verdict.DISTURBED : Verdict.PASS;
      Judgement judgement = judged(seen(!moving, wrong ? 4 : 5, moved.toArray(MovedBit[]::new)));
      assertThat(judgement.verdict()).as("case %s", Integer.toBinaryString(bits)).isEqualTo(wanted);
      assertThat(judgement.bits().isEmpty()).isEqualTo(wanted == Verdict.PASS);
      assertThat(judgement.why().isEmpty()).isEqualTo(wanted == Verdict.PASS);
    }
  }

  @Test
  void wrongBitsAreNamedEachWithWhatWasWanted() {
    Judgement judgement = judged(seen(true, 0b1001));
    assertThat(judgement.verdict()).isEqualTo(Verdict.WRONG);
    assertThat(judgement.bits())
        .containsExactly(
            new WrongBit(line("S[2]"), "wanted 1, seen 0"),
            new WrongBit(line("S[3]"), "wanted 0, seen 1"));
  }

  @Test
  void bitsThatNobodyCaresForAreNeitherWrongNorLate() {
    Vector loose = vector(s -> s.expect("S", "0bxx01"));
    Observation seen = seen(true, 0b1101, moved("S[3]", LIMIT_US + 50_000, 1));
    assertThat(new Judge(CARD).judge(loose, seen).verdict()).isEqualTo(Verdict.PASS);
    Observation late = seen(true, 0b1101, moved("S[1]", LIMIT_US + 1, 1));
    Judgement judgement = new Judge(CARD).judge(loose, late);
    assertThat(judgement.verdict()).isEqualTo(Verdict.LATE);
    assertThat(judgement.bits().get(0).line()).isEqualTo(line("S[1]"));
  }

  @Test
  void aLineNothingIsExpectedOfIsNeverLate() {
    assertThat(judged(seen(true, 5, moved("LAMP", LIMIT_US + 50_000, 1))).verdict())
        .isEqualTo(Verdict.PASS);
  }

  @Test
  void aBusWithALimitOfItsOwnIsHeldToThat() {
    Observation seen = seen(true, 5, moved("S[0]", 60_000, 1));
    Vector tight = vector(s -> s.busSettleUs("S", 50_000));
    assertThat(new Judge(CARD).judge(tight, seen).verdict()).isEqualTo(Verdict.LATE);
    assertThat(new Judge(CARD).judge(tight, seen).bits())
        .containsExactly(new WrongBit(line("S[0]"), "last moved at 60.0 ms, limit 50.0 ms"));
    Vector other = vector(s -> s.busSettleUs("CO", 50_000));
    assertThat(new Judge(CARD).judge(other, seen).verdict()).isEqualTo(Verdict.PASS);
    Observation slow = seen(true, 5, moved("S[0]", 140_000, 1));
    Vector patient = vector(s -> s.busSettleUs("S", 150_000));
    assertThat(new Judge(CARD).judge(patient, slow).verdict()).isEqualTo(Verdict.PASS);
  }

  @Test
  void aStillLineIsDisturbedByAPulseTooShortToSample() {
    Observation glitch =
        new Observation(
            0,
            WATCH_US,
            0,
            0,
            true,
            true,
            false,
            false,
            new long[4],
            new long[] {0, 5, 0, 0},
            new long[4],
            new long[] {0, 1, 1, 1},
            List.of());
    Judgement judgement = judged(glitch);
    assertThat(judgement.verdict()).isEqualTo(Verdict.DISTURBED);
    assertThat(judgement.bits()).extracting(WrongBit::line).containsExactly(line("CO"));
  }

  @Test
  void whatWasCutShortIsUntested() {
    Observation nothing = Observation.none(4);
    assertThat(judged(nothing).verdict()).isEqualTo(Verdict.UNTESTED);
  }

  /**
   * A fixture's times are cut to whole microseconds, so the window from the last change to the end
   * may look just long enough although the fixture knows that it was not.
   */
  @ParameterizedTest
  @ValueSource(longs = {WATCH_US - QUIET_US, WATCH_US - QUIET_US + 1, WATCH_US})
  void theLineThatIsStillMovingIsNamed(long lastUs) {
    Judgement judgement = judged(seen(false, 5, moved("LAMP", lastUs, 2), moved("S[0]", 99, 1)));
    assertThat(judgement.verdict()).isEqualTo(Verdict.UNSETTLED);
    assertThat(judgement.bits()).extracting(WrongBit::line).containsExactly(line("LAMP"));
  }

  @Test
  void fourMovesOfALineThatCameToRestAreNoChatter() {
    Judgement judgement =
        judged(seen(false, 5, moved("S[0]", 90_000, 7), moved("LAMP", WATCH_US - 1, 3)));
    assertThat(judgement.verdict()).isEqualTo(Verdict.UNSETTLED);
  }

  @Test
  void aTripNamesTheLineAndCountsItsMoves() {
    Judgement judgement =
        new Judge(CARD)
            .chatter(
                seen(false, 5, moved("LAMP", WATCH_US, 8), moved("S[0]", 99, 1)),
                Optional.of(line("LAMP")));
    assertThat(judgement.verdict()).isEqualTo(Verdict.CHATTER);
    assertThat(judgement.why()).startsWith("LAMP (J4.1) goes on changing");
    assertThat(judgement.bits())
        .containsExactly(new WrongBit(line("LAMP"), "8 moves, 15 changes in 200.0 ms"));
  }

  @Test
  void aTripInTheRestNamesALineThatHadNotMovedBefore() {
    Judgement judgement = new Judge(CARD).chatter(seen(true, 5), Optional.of(line("CO")));
    assertThat(judgement.bits()).extracting(WrongBit::line).containsExactly(line("CO"));
    assertThat(new Judge(CARD).chatter(seen(true, 5), Optional.empty()).why())
        .startsWith("a line goes on changing");
  }

  @Test
  void whatStirredIsNamedWhenAVectorIsReopened() {
    Judgement judgement = new Judge(CARD).reopened(new long[] {0, 0b1000, 1, 0});
    assertThat(judgement.verdict()).isEqualTo(Verdict.UNSETTLED);
    assertThat(judgement.bits())
        .extracting(WrongBit::line)
        .containsExactly(line("S[3]"), line("CO"));
  }
}
