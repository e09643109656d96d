package cardproof.sim;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.link.Result;
import cardproof.link.ResultFlag;
import java.math.BigInteger;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

/** A simulated sum card adds as java.math.BigInteger does, through frames. */
class SumCardProperties {
  private static final int WIDTH = 12;

  @Property(tries = 20)
  void adds(@ForAll long seed) {
    Card card = Cards.sum(WIDTH);
    RawHost host =
        RawHost.armed(
            new SimulatedBench(
                card, Cards.driven(card), Cards.watched(card), SimSettings.of(seed, "01")));
    Random random = new Random(seed);
    for (int number = 0; number < 16; number++) {
      long drives = random.nextLong() & (1L << 2 * WIDTH + 1) - 1;
      BigInteger sum = sum(drives);
      Result result =
          host.run(
              Steps.number(number)
                  .drive(drives, 2 * WIDTH + 1)
                  .expect(sum.longValueExact(), (1L << WIDTH + 1) - 1)
                  .step());
      assertThat(BigInteger.valueOf(Steps.bits(result.last()))).isEqualTo(sum);
      assertThat(result.has(ResultFlag.MATCHED) && result.has(ResultFlag.EARLY)).isTrue();
    }
  }

  private static BigInteger sum(long drives) {
    long mask = (1L << WIDTH) - 1;
    return BigInteger.valueOf(drives & mask)
        .add(BigInteger.valueOf(drives >>> WIDTH & mask))
        .add(BigInteger.valueOf(drives >>> 2 * WIDTH));
  }
}
