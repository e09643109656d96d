package cardproof.sim;

import static cardproof.link.ResultFlag.DWELL_SAMPLED;
import static cardproof.link.ResultFlag.EARLY;
import static cardproof.link.ResultFlag.MATCHED;
import static cardproof.link.ResultFlag.MISSED;
import static cardproof.link.ResultFlag.QUIET;
import static org.assertj.core.api.Assertions.assertThat;

import cardproof.link.Arm;
import cardproof.link.Beat;
import cardproof.link.FixtureState;
import cardproof.link.MovedWatch;
import cardproof.link.Open;
import cardproof.link.Result;
import cardproof.link.ResultFlag;
import cardproof.link.Resume;
import cardproof.link.Status;
import cardproof.link.Stop;
import org.junit.jupiter.api.Test;

/**
 * What a step reports of lines that change at known times; every rule from {@code
 * firmware-notes/protocol.md}, section 6. The handshake takes no time here, so that step 0 starts
 * at 0.
 */
class ObservedStepTest {
  private final ScriptedCircuit card = new ScriptedCircuit();

  private Result run(Steps steps) {
    return RawHost.armed(card.bench(2, 4)).run(steps.step());
  }

  private static int flags(ResultFlag... flags) {
    int bits = 0;
    for (ResultFlag flag : flags) {
      bits |= flag.bit();
    }
    return bits;
  }

  @Test
  void endsAfterTheQuietWindowWhenNothingMovesAndNothingNeedTo() {
    Result result = run(Steps.number(0).expect(0, 0b1111));

    assertThat(result.flags()).isEqualTo(flags(QUIET, MATCHED, EARLY));
    assertThat(result.startUs()).isZero();
    assertThat(result.durationUs()).isEqualTo(65_000);
    assertThat(result.gapUs()).isZero();
    assertThat(result.moved()).isEmpty();
    assertThat(result.next()).isEqualTo(1);
    assertThat(result.glitched().isEmpty()).isTrue();
  }

  @Test
  void countsFirstLastChangesAndMoves() {
    // a change after exactly 2 ms of rest is a move, after less it is not
    card.flip(1, 10, 10.5, 11, 13).flip(3, 20, 21.95, 22);

    Result result = run(Steps.number(0).expect(0b1000, 0b1111));

    assertThat(result.moved())
        .containsExactly(
            new MovedWatch(1, 10_000, 13_000, 4, 2), new MovedWatch(3, 20_000, 22_000, 3, 1));
    assertThat(result.movedTotal()).isEqualTo(2);
    assertThat(Steps.bits(result.before())).isZero();
    assertThat(Steps.bits(result.last())).isEqualTo(0b1000);
  }

  @Test
  void gapIsTheLongestSilenceBeforeTheLastChange() {
    card.flip(0, 10, 45).flip(1, 40);

    Result result = run(Steps.number(0).expect(0b10, 0b11));

    assertThat(result.gapUs()).isEqualTo(30_000);
    assertThat(result.durationUs()).isEqualTo(45_000 + 65_000);
  }

  @Test
  void gapCountsFromStartToTheFirstChange() {
    card.flip(0, 50).flip(1, 60);

    assertThat(run(Steps.number(0).expect(0b11, 0b11)).gapUs()).isEqualTo(50_000);
  }

  @Test
  void waitsForTheMatchHoweverQuietTheCardIs() {
    card.flip(0, 300);

    Result result = run(Steps.number(0).expect(1, 1));

    assertThat(result.flags()).isEqualTo(flags(QUIET, MATCHED, EARLY));
    assertThat(result.durationUs()).isEqualTo(365_000);
    assertThat(result.gapUs()).isEqualTo(300_000);
  }

  @Test
  void watchesToTheEndWhatDoesNotMatch() {
    card.flip(0, 20);

    Result result = run(Steps.number(0).expect(0b10, 0b11));

    assertThat(result.flags()).isEqualTo(flags(QUIET));
    assertThat(result.durationUs()).isEqualTo(400_000);
  }

  @Test
  void isNotQuietWhenSomethingChangedWithinTheWindowBeforeTheEnd() {
    card.flip(0, 335.05);

    Result result = run(Steps.number(0).expect(1, 1));

    assertThat(result.flags()).isEqualTo(flags(MATCHED));
    assertThat(result.durationUs()).isEqualTo(400_000);
  }

  @Test
  void isQuietWhenTheLastChangeIsOneWindowBeforeTheEnd() {
    card.flip(0, 335);

    Result result = run(Steps.number(0).expect(1, 1));

    // quiet and matched just as watching ends: not before it, hence not early
    assertThat(result.flags()).isEqualTo(flags(QUIET, MATCHED));
  }

  @Test
  void anAuditRunsToTheEnd() {
    Result result = run(Steps.number(0).expect(0, 0b1111).audited());

    assertThat(result.flags()).isEqualTo(flags(QUIET, MATCHED));
    assertThat(result.durationUs()).isEqualTo(400_000);
  }

  @Test
  void samplesAtTheDwellAndNamesWhatWasUnstableThen() {
    card.flip(0, 49).flip(1, 51).flip(2, 48.95).flip(3, 51.05);

    Result result = run(Steps.number(0).dwell(50_000));

    assertThat(result.flags()).isEqualTo(flags(QUIET, MATCHED, DWELL_SAMPLED));
    assertThat(Steps.bits(result.atDwell())).isEqualTo(0b0101);
    assertThat(Steps.bits(result.unstable())).isEqualTo(0b0011);
    assertThat(Steps.bits(result.last())).isEqualTo(0b1111);
    assertThat(result.durationUs()).isEqualTo(400_000);
  }

  @Test
  void takesTheDwellSampleBetweenTwoOfTheGrid() {
    card.flip(0, 50.010).flip(1, 50.020);

    Result result = run(Steps.number(0).dwell(50_015));

    assertThat(Steps.bits(result.atDwell())).isEqualTo(0b01);
    assertThat(result.moved())
        .containsExactly(
            new MovedWatch(0, 50_015, 50_015, 1, 1), new MovedWatch(1, 50_050, 50_050, 1, 1));
  }

  @Test
  void dwellMayBeTheEndOfWatching() {
    card.flip(0, 399.5);

    Result result = run(Steps.number(0).dwell(400_000));

    assertThat(result.flags()).isEqualTo(flags(MATCHED, DWELL_SAMPLED));
    assertThat(Steps.bits(result.atDwell())).isEqualTo(1);
    assertThat(Steps.bits(result.unstable())).isEqualTo(1);
  }

  @Test
  void withoutDwellNothingIsUnstable() {
    card.flip(0, 0.05);

    Result result = run(Steps.number(0).expect(1, 1));

    assertThat(result.has(DWELL_SAMPLED)).isFalse();
    assertThat(result.unstable().isEmpty()).isTrue();
    assertThat(result.atDwell().isEmpty()).isTrue();
  }

  @Test
  void seesAChangeAtTheNextSample() {
    card.flip(0, 10.010);

    assertThat(run(Steps.number(0).expect(1, 1)).moved())
        .containsExactly(new MovedWatch(0, 10_050, 10_050, 1, 1));
  }

  @Test
  void missesAPulseBetweenTwoSamples() {
    card.flip(0, 10.010, 10.040).flip(1, 20.010, 20.060);

    // without edge latches nobody knows of the first; the second spans one sample
    Result result = run(Steps.number(0));

    assertThat(result.moved()).containsExactly(new MovedWatch(1, 20_050, 20_100, 2, 1));
    assertThat(result.glitched().isEmpty()).isTrue();
  }

  @Test
  void linesThatAreNotWatchedKeepTheirLevelsButNeverMove() {
    card.flip(0, 30).flip(1, 150);
    RawHost host = new RawHost(card.bench(2, 4));
    host.hello();
    Open usual = host.usual();
    usual.watches().clear(1);
    host.open(RawHost.SESSION, usual);
    host.ask(new Arm(), Status.class);

    Result result = host.run(Steps.number(0).expect(0b11, 0b11).still(0b10).gated().step());

    assertThat(result.moved()).containsExactly(new MovedWatch(0, 30_000, 30_000, 1, 1));
    // cared for, so its level was waited for; quiet from 30 ms on, since nobody watches it
    assertThat(result.durationUs()).isEqualTo(150_000);
    assertThat(result.flags()).isEqualTo(flags(QUIET, MATCHED, EARLY));
    assertThat(result.gapUs()).isEqualTo(30_000);
  }

  @Test
  void aGatedStepThatMatchesGoesOn() {
    card.flip(0, 30);
    RawHost host = RawHost.armed(card.bench(2, 4));

    Result result = host.run(Steps.number(0).expect(1, 1).gated().step());

    assertThat(result.has(MISSED)).isFalse();
    assertThat(host.rest(1000)).isEmpty();
  }

  @Test
  void aGatedStepMissesByItsLevels() {
    assertHeld(Steps.number(0).expect(1, 1), QUIET);
  }

  @Test
  void aGatedStepMissesWhenItIsNotQuiet() {
    card.flip(0, 340);
    assertHeld(Steps.number(0).expect(1, 1), MATCHED);
  }

  @Test
  void aGatedStepMissesByAChangeAfterTheLimit() {
    card.flip(0, 20).flip(1, 100.05);
    assertHeld(Steps.number(0).expect(0b11, 0b11).times(100_000, 400_000, 65_000), QUIET, MATCHED);
  }

  @Test
  void aChangeAtTheLimitIsInTime() {
    card.flip(0, 100);
    Steps steps = Steps.number(0).expect(1, 1).times(100_000, 400_000, 65_000).gated();

    assertThat(run(steps).has(MISSED)).isFalse();
  }

  @Test
  void aGatedStepMissesByALineThatHadToHoldStill() {
    card.flip(2, 20, 30);
    assertHeld(Steps.number(0).expect(0, 0b1111).still(0b100), QUIET, MATCHED);
  }

  private void assertHeld(Steps steps, ResultFlag... others) {
    RawHost host = RawHost.armed(card.bench(2, 4));
    host.send(steps.drive(0b01, 2).gated().step());
    host.send(Steps.number(1).drive(0b10, 2).step());

    Result result = host.expect(Result.class, 900_000);
    Status held = host.expect(Status.class, 0);

    assertThat(result.flags() & ~EARLY.bit()).isEqualTo(flags(others) | MISSED.bit());
    assertThat(held.state()).isEqualTo(FixtureState.HELD);
    assertThat(held.finished()).isEqualTo(1);
    assertThat(held.next()).isEqualTo(2);
    assertThat(Steps.bits(held.on())).as("left as the missed step set them").isEqualTo(0b01);
    assertThat(host.rest(500_000)).as("step 1 waits").isEmpty();

    assertThat(host.ask(new Resume(7), Status.class).state()).isEqualTo(FixtureState.HELD);
    assertThat(host.ask(new Resume(0), Status.class).state()).isEqualTo(FixtureState.READY);
    assertThat(host.expect(Result.class, 900_000).number()).isEqualTo(1);
    assertThat(Steps.bits(host.ask(new Stop(), Status.class).on())).isZero();
  }

  @Test
  void whatStirsBetweenStepsIsToldWithTheNext() {
    card.flip(1, 70).flip(2, 75, 76);
    RawHost host = RawHost.armed(card.bench(2, 4));
    host.run(Steps.number(0).step());
    host.rest(20_000);

    Status idle = host.ask(new Beat(0), Status.class);
    Result next = host.run(Steps.number(1).step());
    Status after = host.ask(new Beat(0), Status.class);

    assertThat(Steps.bits(idle.stirred())).isEqualTo(0b110);
    assertThat(Steps.bits(idle.levels())).isEqualTo(0b010);
    assertThat(Steps.bits(next.stirred())).isEqualTo(0b110);
    assertThat(Steps.bits(next.before())).isEqualTo(0b010);
    assertThat(next.moved()).isEmpty();
    assertThat(after.stirred().isEmpty()).isTrue();
  }

  @Test
  void queuedStepsFollowAtOnce() {
    card.flip(0, 65.05);
    RawHost host = RawHost.armed(card.bench(2, 4));
    host.send(Steps.number(0).step());
    host.send(Steps.number(1).step());

    Result first = host.expect(Result.class, 900_000);
    Result second = host.expect(Result.class, 900_000);

    assertThat(second.startUs()).isEqualTo(first.startUs() + first.durationUs());
    assertThat(second.stirred().isEmpty()).isTrue();
    assertThat(second.moved()).containsExactly(new MovedWatch(0, 50, 50, 1, 1));
  }

  @Test
  void aResultTooLongForOneFrameComesInParts() {
    int watches = 100;
    for (int watch = 0; watch < watches; watch++) {
      card.flip(watch, 10 + watch);
    }
    RawHost host = RawHost.armed(card.bench(2, watches));
    host.send(Steps.number(0).times(350_000, 400_000, 65_000).step());

    int seen = 0;
    while (seen < watches) {
      Result part = host.expect(Result.class, 900_000);
      assertThat(part.movedTotal()).isEqualTo(watches);
      assertThat(part.firstEntry()).isEqualTo(seen);
      for (MovedWatch moved : part.moved()) {
        long atUs = 10_000 + 1000L * seen;
        assertThat(moved).isEqualTo(new MovedWatch(seen, atUs, atUs, 1, 1));
        seen++;
      }
    }
    assertThat(host.rest(1000)).isEmpty();
  }
}
