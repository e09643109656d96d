package cardproof.link;

import static org.assertj.core.api.Assertions.assertThat;

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
    rig.faults(LinkRig.noise(percent));
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
   * 16 ms is the default latency timer of a common adapter (FTDI AN232B-04); a commit of 20 ms is
   * what the runner is held to, 100 ms a slow disk.
   */
  @ParameterizedTest
  @CsvSource({"0.1, 0, 4", "16, 0, 4", "16, 20, 3", "16, 100, 4", "0.1, 100, 2", "16, 20, 64"})
  void nothingExtraWithoutNoise(double latencyMs, long commitMs, int slots) {
    int count = 2000;
    LinkRig rig = LinkRig.quiet(slots, LinkRig::relays).armed();
    rig.faults("link to host: delay " + latencyMs + " ms");
    rig.commitNs = commitMs * LinkRig.MS;
    LinkCounters before = rig.link.counters();
    rig.runTo(count);
    LinkCounters after = rig.link.counters();
    rig.wire.pass(100 * LinkRig.MS);
    assertThat(rig.link.eventReady()).isFalse();
    assertThat(after.framesSent() - before.framesSent()).isEqualTo(count + rig.acknowledgements);
    assertThat(rig.link.counters().framesReceived() - before.framesReceived())
        .isEqualTo(count + rig.acknowledgements + rig.wire.beats());
    assertThat(after.stepsResent()).isZero();
    assertThat(after.resultsRead()).isZero();
    assertThat(after.requestsRepeated()).isZero();
    assertThat(after.nacks()).isZero();
    assertThat(rig.wire.beats()).isLessThanOrEqualTo(commitMs < 100 ? 0 : count);
    System.out.printf(
        "latency %.1f ms, commit %d ms, K %d: %.2f of the card's time%n",
        latencyMs, commitMs, slots, rig.slowness(count));
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
