package cardproof.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.BitSet;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** What coding costs, so that it can be seen to vanish beside a relay's milliseconds. */
@Tag("bench")
class MessageCodecBenchTest {
  private static final int ROUNDS = 200_000;
  private static final long MOST_NS = 20_000;

  @Test
  void stepAndResultOf32Channels() {
    MessageCodec codec = new MessageCodec(32, 32);
    BitSet set = BitSet.valueOf(new long[] {0xA5A5_0FF0L});
    Step step =
        new Step(7, true, false, false, 350_000, 415_000, 65_000, 0, set, set, set, set, set);
    List<MovedWatch> moved =
        IntStream.range(0, 12).mapToObj(i -> new MovedWatch(i, 15_000, 16_000, 3, 1)).toList();
    Result result =
        new Result(7, 8, 7, 1, 98_000, 4, 1, 30, set, set, set, set, set, set, 12, 0, moved);
    report("STEP", codec, new Frame(1, step));
    report("RESULT", codec, new Frame(1, result));
  }

  private static void report(String name, MessageCodec codec, Frame frame) {
    long[] seen = new long[1];
    FrameParser parser =
        new FrameParser(
            (bytes, offset, length) -> {
              try {
                seen[0] += codec.decode(bytes, offset, length).session();
              } catch (BadFrameException refused) {
                throw new AssertionError(refused);
              }
            });
    long ns = Long.MAX_VALUE;
    for (int pass = 0; pass < 5; pass++) {
      long start = System.nanoTime();
      for (int i = 0; i < ROUNDS; i++) {
        byte[] line = codec.encode(frame);
        parser.feed(line, 0, line.length);
      }
      ns = Math.min(ns, (System.nanoTime() - start) / ROUNDS);
    }
    System.out.printf(
        "%s: %d ns to encode and decode, %d bytes%n", name, ns, codec.encode(frame).length);
    assertThat(seen[0]).isEqualTo(5L * ROUNDS);
    assertThat(ns).isLessThan(MOST_NS);
  }
}
