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
  /** Twice the relays may take up to six times as long: far from all pairs with all pairs. */
  @Test
  void growsLittleFasterThanTheBoard() {
    for (int warm = 0; warm < 5; warm++) {
      micros(Boards.adder(12));
    }
    grows(micros(Boards.adder(167)), micros(Boards.adder(334)));
    grows(micros(Boards.register(400)), micros(Boards.register(800)));
    grows(micros(Boards.plusOneIntoItself(250)), micros(Boards.plusOneIntoItself(500)));
  }

  private static void grows(long halfUs, long wholeUs) {
    assertThat((double) wholeUs / halfUs).isLessThan(6);
  }

  private static long micros(Soldering board) {
    Wiring wiring = board.wiring();
    long before = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    Review review = Review.of(wiring, board.lines(), new ReviewSettings(12_000, 0));
    long took = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - before;
    long micros = TimeUnit.NANOSECONDS.toMicros(took);
    System.out.printf("review of %d relays: %d us%n", review.tally().relays(), micros);
    return micros;
  }
}
