package cardproof.card.wiring.review;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.wiring.Wiring;
import java.lang.management.ManagementFactory;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** How much of the processor's time a review takes, so that it may be part of every check. */
@Tag("bench")
class ReviewSpeedTest {
  @Test
  void ofAnAdderOfTwelveBits() {
    assertThat(millis(Boards.adder(12))).isLessThan(200);
  }

  @Test
  void ofAThousandRelays() {
    assertThat(millis(Boards.adder(334))).isLessThan(3_000);
    assertThat(millis(Boards.register(800))).isLessThan(3_000);
    assertThat(millis(Boards.plusOneIntoItself(500))).isLessThan(3_000);
  }

  private static long millis(Soldering board) {
    Wiring wiring = board.wiring();
    long before = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    Review review = Review.of(wiring, board.lines(), new ReviewSettings(12_000, 0));
    long took = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - before;
    long millis = TimeUnit.NANOSECONDS.toMillis(took);
    System.out.printf("review of %d relays: %d ms%n", review.tally().relays(), millis);
    return millis;
  }
}
