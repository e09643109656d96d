package cardproof.sim;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.link.Beat;
import cardproof.link.Result;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** A bench that keeps to a clock, on a clock that a test moves. */
class WallPaceTest {
  private static final long MS = 1_000_000;
  private static final long START_NS = 77_000_000_123L;

  /** Goes on when it is waited for, and when the test says that something took time. */
  private static final class Clock implements WallClock {
    private long nowNs = START_NS;
    private long waitedNs;

    @Override
    public long nanoTime() {
      return nowNs;
    }

    @Override
    public void waitUntil(long untilNs) {
      waitedNs += untilNs - nowNs;
      nowNs = untilNs;
    }
  }

  private final Clock clock = new Clock();

  private static SimulatedBench bench() {
    Card card = Cards.sum(12);
    return new SimulatedBench(
        card, Cards.driven(card), Cards.watched(card), SimSettings.of(3, "01"));
  }

  private SimulatedBench paced() {
    SimulatedBench bench = bench();
    bench.keepTo(clock);
    return bench;
  }

  private static List<Result> results(SimulatedBench bench) {
    RawHost host = RawHost.armed(bench);
    List<Result> results = new ArrayList<>();
    for (int number = 0; number < 10; number++) {
      results.add(
          host.run(Steps.number(number).drive(0x15_5333L * number & 0x1FF_FFFF, 25).step()));
      host.send(new Beat(number + 1));
      host.rest(1234);
    }
    return results;
  }

  @Test
  void aSecondOfCardTimeTakesASecondAndNothingElseChanges() {
    SimulatedBench paced = paced();
    SimulatedBench free = bench();
    assertThat(results(paced)).isEqualTo(results(free));
    assertThat(paced.nowNs()).isEqualTo(free.nowNs()).isGreaterThan(1000 * MS);
    assertThat(clock.nowNs - START_NS).isEqualTo(paced.nowNs());
  }

  @Test
  void aReadReturnsWithItsDeadlineAndNoSooner() {
    SimulatedBench bench = paced();
    assertThat(bench.read(new byte[10], 40 * MS)).isZero();
    assertThat(clock.nowNs - START_NS).isEqualTo(40 * MS);
    bench.read(new byte[10], 10 * MS);
    assertThat(clock.nowNs - START_NS).as("a deadline in the past").isEqualTo(40 * MS);
  }

  @Test
  void timeThatTheProgramNeededIsCaughtUpWith() {
    SimulatedBench bench = paced();
    bench.read(new byte[10], 100 * MS);
    clock.nowNs += 30 * MS;
    bench.read(new byte[10], 110 * MS);
    assertThat(bench.nowNs()).isEqualTo(110 * MS);
    bench.read(new byte[10], 200 * MS);
    assertThat(clock.nowNs - START_NS).isEqualTo(200 * MS);
    assertThat(clock.waitedNs).isEqualTo(170 * MS);
  }

  @Test
  void afterALongStopTheCardGoesOnWhereItStood() {
    SimulatedBench bench = paced();
    bench.read(new byte[10], 100 * MS);
    clock.nowNs += 3_600_000 * MS;
    long wokenNs = clock.nowNs;
    bench.read(new byte[10], 101 * MS);
    bench.read(new byte[10], 300 * MS);
    assertThat(clock.nowNs - wokenNs).isEqualTo(199 * MS);
    bench.read(new byte[10], 5 * MS);
    bench.read(new byte[10], 400 * MS);
    assertThat(clock.nowNs - wokenNs).isEqualTo(299 * MS);
  }
}
