package cardproof.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.link.LinkEvent;
import cardproof.link.Result;
import cardproof.sim.PinSide;
import java.nio.file.Path;
import java.util.BitSet;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Each drive reaches its pin, or its latch, alone, and each watch is seen alone. The ATmega2560
 * comes with JTAG switched on, which takes four of its watches until the program has switched it
 * off.
 */
class EachPinTest {
  @TempDir private Path folder;

  @ParameterizedTest
  @EnumSource(Chip.class)
  void everyDriveAndEveryWatch(Chip chip) {
    Counting card = new Counting(chip.watches());
    try (ChipBench bench = ChipBench.inStep(chip, card, folder);
        StepsOnChip host = new StepsOnChip(bench)) {
      host.arm(200, 1_000, 10_000);
      int steps = Math.max(chip.drives(), chip.watches());
      for (int step = 0; step < steps; step++) {
        BitSet one = new BitSet();
        one.set(step % chip.drives());
        host.submit(one, new Lines(), 5_000, 2_000);
        LinkEvent event = host.next();
        assertThat(event).isInstanceOf(LinkEvent.ResultArrived.class);
        Result result = ((LinkEvent.ResultArrived) event).result();
        BitSet seen = new BitSet();
        seen.set(step % chip.watches());
        assertThat(result.last()).as("watches in step %d", step).isEqualTo(seen);
        assertThat(card.driven).as("drives in step %d", step).isEqualTo(one);
        host.link().acknowledge(step + 1);
      }
      assertThat(bench.stats()).containsEntry("jtag", 0L).containsEntry("collisions", 0L);
    }
  }

  /** The next watch is at 1, and no other, each time that drives are switched on. */
  private static final class Counting implements PinSide {
    private static final long AFTER_NS = 100_000;

    private final int watches;
    private BitSet driven = new BitSet();
    private BitSet levels = new BitSet();
    private int count = -1;
    private long nextNs = Long.MAX_VALUE;
    private boolean pending;

    Counting(int watches) {
      this.watches = watches;
    }

    @Override
    public void drive(long nowNs, BitSet drives) {
      driven = (BitSet) drives.clone();
      if (!drives.isEmpty() && !pending) {
        pending = true;
        nextNs = nowNs + AFTER_NS;
      }
    }

    @Override
    public void advance(long nowNs) {
      if (nextNs <= nowNs) {
        nextNs = Long.MAX_VALUE;
        pending = false;
        count++;
        levels = new BitSet();
        levels.set(count % watches);
      }
    }

    @Override
    public long nextNs() {
      return nextNs;
    }

    @Override
    public BitSet watches() {
      return (BitSet) levels.clone();
    }
  }
}
