package cardproof.sim;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.Role;
import cardproof.link.Beat;
import cardproof.link.Frame;
import cardproof.link.Result;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** Vectors a second through frames, on one core, both ends of the line included. */
@Tag("bench")
class SimulatedBenchSpeedTest {
  private static final int VECTORS = 200_000;
  private static final int SLOTS = 16;

  @Test
  void aSumCardOfThirtyEightLines() {
    System.out.printf("sum card: %,.0f vectors/s%n", fastest(Cards.sum(12), 25));
  }

  @Test
  void aPlainCardOfThirtyEightLines() {
    Card card = Cards.named("pass").bus("I", 19, Role.INPUT).output("Y", 19, "I").card();
    double rate = fastest(card, 19);
    System.out.printf("card of copies: %,.0f vectors/s%n", rate);
    assertThat(rate).isGreaterThan(5_000);
  }

  private static double fastest(Card card, int drives) {
    double best = 0;
    for (int i = 0; i < 4; i++) {
      best = Math.max(best, rate(card, drives, i));
    }
    return best;
  }

  private static double rate(Card card, int drives, long seed) {
    RawHost host =
        RawHost.armed(
            new SimulatedBench(
                card,
                Cards.driven(card),
                Cards.watched(card),
                SimSettings.of(seed, "01").withSlots(SLOTS)));
    Random random = new Random(seed);
    long beganNs = System.nanoTime();
    int sent = 0;
    int done = 0;
    while (done < VECTORS) {
      while (sent < VECTORS && sent < done + SLOTS) {
        host.send(Steps.number(sent).drive(random.nextLong() & (1L << drives) - 1, drives).step());
        sent++;
      }
      Frame frame = host.next(1_000_000);
      if (frame.message() instanceof Result result) {
        done = result.number() + 1;
        host.send(new Beat(done));
      }
    }
    return VECTORS * 1e9 / (System.nanoTime() - beganNs);
  }
}
