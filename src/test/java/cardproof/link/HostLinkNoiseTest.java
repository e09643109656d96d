package cardproof.link;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.link.NoisyLine.Noise;
import cardproof.link.ReferenceFixture.Answer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The promise of the protocol's page, tried on lines that lose, repeat, damage and delay frames.
 */
class HostLinkNoiseTest {
  /** Rates of each mishap in percent, slots, longest frame (72: a result comes in parts), seed. */
  @ParameterizedTest
  @CsvSource({
    "1, 2, 256, 11",
    "1, 4, 72, 12",
    "1, 16, 256, 13",
    "1, 200, 256, 14",
    "10, 2, 256, 21",
    "10, 3, 72, 22",
    "10, 4, 256, 23",
    "10, 16, 72, 24",
    "10, 200, 256, 25",
  })
  void exactlyOnce(int percent, int slots, int longest, long seed) {
    int count = 3000;
    LinkRig rig =
        new LinkRig(
            seed,
            slots,
            longest,
            step -> new Answer(LinkRig.relays(step).durationUs(), false, false, false, 5));
    rig.noise(Noise.each(percent / 100.0));
    rig.armed();
    rig.runTo(count);
    rig.assertExactlyOnce(count);
    System.out.printf(
        "%d %%, K %d, seed %d: %.2f of the card's time, %s%n",
        percent, slots, seed, rig.slowness(count), rig.link.counters());
    assertThat(rig.link.stop().state()).isEqualTo(FixtureState.SAFE);
    assertThat(rig.fixture.on()).isEqualTo(LinkRig.set(0));
  }

  /**
   * What the host sends on a line without noise: each STEP once, one BEAT for an acknowledgement.
   */
  @Test
  void nothingExtraWithoutNoise() {
    int count = 2000;
    LinkRig rig = LinkRig.quiet(4, LinkRig::relays).armed();
    long sentBefore = rig.link.counters().framesSent();
    long receivedBefore = rig.link.counters().framesReceived();
    while (rig.results.size() < count) {
      rig.next(count);
    }
    LinkCounters counters = rig.link.counters();
    long beats = rig.acknowledgements;
    assertThat(counters.framesSent() - sentBefore).isEqualTo(count + beats);
    // the answer to the last BEAT is still on its way
    assertThat(counters.framesReceived() - receivedBefore).isEqualTo(count + beats - 1);
    assertThat(counters.stepsResent()).isZero();
    assertThat(counters.resultsRead()).isZero();
    assertThat(counters.requestsRepeated()).isZero();
    assertThat(counters.nacks()).isZero();
    assertThat(rig.wire.beats()).isZero();
    assertThat(rig.slowness(count)).isLessThan(1.01);
  }

  /** 512 bytes of steps, and what else is sent meanwhile. */
  @Test
  void littleIsInFlightHoweverManySlots() {
    LinkRig rig = LinkRig.quiet(255, LinkRig::relays).armed();
    rig.runTo(1000);
    rig.assertExactlyOnce(1000);
    assertThat(rig.wire.toDevice.deepest()).isLessThan(600);
  }
}
