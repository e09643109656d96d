package cardproof.sim;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.fault.FaultNames;
import cardproof.link.Beat;
import cardproof.link.Capability;
import cardproof.link.HelloReply;
import cardproof.link.Result;
import cardproof.link.Status;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** The same settings give the same bytes at the same times; other ones do not. */
class SameSeedSameFramesTest {
  private static final SimSettings SETTINGS = SimSettings.of(42, "03");

  private static SimulatedBench bench(SimSettings settings) {
    Card card = Cards.sum(12);
    return new SimulatedBench(card, Cards.driven(card), Cards.watched(card), settings);
  }

  private static List<String> frames(SimSettings settings) {
    List<String> frames = new ArrayList<>();
    SimulatedBench bench = bench(settings);
    bench.trace(
        (nowNs, toFixture, bytes) ->
            frames.add(nowNs + (toFixture ? " > " : " < ") + HexFormat.of().formatHex(bytes)));
    RawHost host = RawHost.armed(bench);
    Random random = new Random(9);
    for (int number = 0; number < 40; number++) {
      host.run(Steps.number(number).drive(random.nextInt(1 << 25), 25).step());
      host.send(new Beat(number + 1));
      host.rest(random.nextInt(5000));
    }
    return frames;
  }

  @Test
  void sameSettingsSameFrames() {
    List<String> frames = frames(SETTINGS);

    assertThat(frames).hasSizeGreaterThan(160);
    assertThat(frames(SETTINGS)).isEqualTo(frames);
    SimSettings otherUnit = SimSettings.of(42, "04");
    assertThat(frames(otherUnit)).isNotEqualTo(frames);
    assertThat(frames(SimSettings.of(43, "03"))).isNotEqualTo(frames);
    assertThat(frames(SETTINGS.withLineDelayUs(16_000))).isNotEqualTo(frames);
    assertThat(
            frames(
                SETTINGS.withFaults(
                    List.of(FaultNames.parse("S[0] stuck at ground", Cards.sum(12))))))
        .isNotEqualTo(frames);
  }

  @Test
  void aDelayedLineDelaysBothWays() {
    SimulatedBench bench = bench(SETTINGS.withLineDelayUs(16_000));
    RawHost host = new RawHost(bench);

    host.hello();

    assertThat(bench.nowNs()).isEqualTo(32_000_000);
    host.open(5);
    long sentNs = bench.nowNs();
    assertThat(host.ask(new Beat(0), Status.class).nowUs()).isEqualTo(sentNs / 1000 + 16_000);
  }

  @Test
  void saysWhoItIs() {
    HelloReply board = new RawHost(bench(SETTINGS)).hello();

    assertThat(board.has(Capability.SIMULATED)).isTrue();
    assertThat(board.has(Capability.PUSH_PULL)).isFalse();
    assertThat(board.has(Capability.EDGE_LATCHES)).isFalse();
    assertThat(board.drives()).isEqualTo(25);
    assertThat(board.watches()).isEqualTo(13);
    assertThat(board.slots()).isEqualTo(16);
    assertThat(board.periodNs()).isEqualTo(50_000);
    assertThat(board.blindUs()).isEqualTo(50);
    assertThat(board.longestFrame()).isEqualTo(512);
    assertThat(board.board()).isEqualTo("simulated bench");
    assertThat(board.boardId()).isNotZero();
    assertThat(new RawHost(bench(SimSettings.of(42, "99"))).hello().boardId())
        .as("the board is the same, whatever card is on it")
        .isEqualTo(board.boardId());
    assertThat(new RawHost(bench(SimSettings.of(43, "03"))).hello().boardId())
        .isNotEqualTo(board.boardId());
  }

  @Test
  void keepAliveRepeatsUntilItsLeaseEnds() {
    SimulatedBench bench = bench(SETTINGS);
    RawHost host = RawHost.armed(bench);
    host.send(Steps.number(0).drive(1, 25).step());
    List<Long> switchedUs = new ArrayList<>();
    List<Long> beatUs = new ArrayList<>();
    bench.watchDrives((nowNs, on) -> switchedUs.add(nowNs / 1000));
    bench.trace(
        (nowNs, toFixture, bytes) -> {
          if (toFixture) {
            beatUs.add(nowNs / 1000);
          }
        });
    bench.keepAlive(host.encode(new Beat(0)), 250_000_000, 3_000_000_000L);

    host.rest(1_100_000);
    assertThat(beatUs).containsExactly(250_000L, 500_000L, 750_000L, 1_000_000L);
    host.send(new Beat(0));
    host.rest(8_900_000);

    // the write at 1.1 s shifts what follows; the last repeat within the lease is at 2.85 s
    assertThat(beatUs.subList(4, 6)).containsExactly(1_100_000L, 1_350_000L);
    assertThat(beatUs.get(beatUs.size() - 1)).isEqualTo(2_850_000L);
    assertThat(switchedUs).containsExactly(3_850_000L);
  }

  @Test
  void readNeverPassesItsDeadline() {
    SimulatedBench bench = bench(SETTINGS);
    byte[] room = new byte[10];

    assertThat(bench.read(room, 5_000)).isZero();
    assertThat(bench.nowNs()).isEqualTo(5_000);
    assertThat(bench.read(room, 1_000)).as("in the past").isZero();
    assertThat(bench.nowNs()).isEqualTo(5_000);
  }

  @Test
  void aPacedFixtureDoesTheSameOnAnotherClock() {
    Card card = Cards.sum(12);
    long startNs = 123_456_789_000L;
    PacedFixture paced =
        new PacedFixture(
            card,
            Cards.driven(card),
            Cards.watched(card),
            SETTINGS.withLineDelayUs(16_000),
            startNs);
    SimulatedBench bench = bench(SETTINGS.withLineDelayUs(16_000));
    RawHost host = RawHost.armed(new PacedWire(paced, startNs));
    RawHost twin = RawHost.armed(bench);
    for (int number = 0; number < 5; number++) {
      Result result = host.run(Steps.number(number).drive(77L * number, 25).step());
      assertThat(result).isEqualTo(twin.run(Steps.number(number).drive(77L * number, 25).step()));
    }
    assertThat(host.wire.nowNs() - startNs).isEqualTo(bench.nowNs());
  }
}
