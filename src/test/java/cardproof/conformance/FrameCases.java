package cardproof.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;

/** Section 1: bytes on the line. */
final class FrameCases {
  private static final int NO_TYPE = 0x3F;

  private FrameCases() {}

  static Section section() {
    return new Section("1 frames")
        .add(
            "zero bytes between frames are nothing",
            bench -> {
              Status before = bench.open(Open.USUAL);
              bench.raw(new byte[7]);
              Status after = bench.now();
              assertThat(after.whole()).isEqualTo(before.whole() + 1);
              assertThat(after.damaged()).isEqualTo(before.damaged());
            })
        .add("a flipped bit is counted and not answered", FrameCases::flippedBit)
        .add(
            "a frame shorter than nine bytes is damaged",
            bench -> damaged(bench, Frame.stuffed(new byte[] {3, 1, 2, 3, 4, 5, 6, 7})))
        .add(
            "a COBS code that points beyond the end is damaged",
            bench -> damaged(bench, new byte[] {9, 1, 2, 3, 0}))
        .add("one byte alone is damaged", bench -> damaged(bench, new byte[] {1, 0}))
        .add("half a frame is damaged", FrameCases::half)
        .add("a frame after damage is taken", FrameCases::afterDamage)
        .add(
            "two frames run together without a zero are one damaged frame",
            bench -> {
              bench.open(Open.USUAL);
              byte[] arm = Frame.of(Type.ARM, bench.session()).line();
              byte[] joined = Arrays.copyOf(arm, 2 * arm.length - 1);
              System.arraycopy(arm, 0, joined, arm.length - 1, arm.length);
              damaged(bench, joined);
              assertThat(bench.now().state()).isEqualTo(Status.OPENED);
            })
        .add("a frame may come in pieces", FrameCases::pieces)
        .add(
            "frames one right after another are all taken",
            bench -> {
              Status before = bench.open(Open.USUAL);
              for (int i = 0; i < 8; i++) {
                bench.send(Type.BEAT, new byte[4]);
              }
              bench.idle(50_000);
              assertThat(bench.now().whole()).isEqualTo(before.whole() + 9);
            })
        .add(
            "a frame of the longest length is taken",
            bench -> {
              int body = bench.shape().longestFrame() - 9;
              Nack nack = bench.nack(new Frame(NO_TYPE, 7, new byte[body]));
              assertThat(nack.reason()).isEqualTo(Nack.UNKNOWN_TYPE);
            })
        .add(
            "a longest frame without a zero in it is taken",
            bench -> {
              byte[] body = new byte[bench.shape().longestFrame() - 9];
              Arrays.fill(body, (byte) 0xA5);
              Nack nack = bench.nack(new Frame(NO_TYPE, 0x01010101, body));
              assertThat(nack.reason()).isEqualTo(Nack.UNKNOWN_TYPE);
            })
        .add("a frame that is too long does no harm", FrameCases::tooLong)
        .add(
            "the longest frame takes every STEP",
            bench -> {
              bench.open(Open.USUAL);
              int plain = bench.frame(Step.of(0, 0)).plain().length;
              assertThat(bench.shape().longestFrame()).isBetween(plain, 512);
            })
        .add(
            "frames received whole are counted, those refused too",
            bench -> {
              Status before = bench.open(Open.USUAL);
              bench.nack(Frame.of(NO_TYPE, bench.session()));
              bench.nack(Frame.of(Type.ARM, bench.session() + 1));
              bench.hello(1);
              assertThat(bench.now().whole()).isEqualTo(before.whole() + 4);
            });
  }

  private static void damaged(Bench bench, byte[] line) {
    Status before = bench.open(Open.USUAL);
    bench.raw(line);
    assertThat(bench.silence(Bench.ANSWER_US)).as("answers to damage").isEmpty();
    Status after = bench.now();
    assertThat(after.damaged()).isEqualTo(before.damaged() + 1);
    assertThat(after.whole()).isEqualTo(before.whole() + 1);
    assertThat(after.state()).isEqualTo(Status.OPENED);
  }

  private static void flippedBit(Bench bench) {
    bench.open(Open.USUAL);
    byte[] line = Frame.of(Type.ARM, bench.session()).line();
    line[line.length - 3] ^= 0x10;
    if (line[line.length - 3] == 0) {
      line[line.length - 3] = 0x20;
    }
    damaged(bench, line);
  }

  private static void half(Bench bench) {
    bench.open(Open.USUAL);
    byte[] line = bench.frame(Step.of(0, 0)).line();
    byte[] half = Arrays.copyOf(line, line.length / 2);
    half[half.length - 1] = 0;
    damaged(bench, half);
  }

  private static void afterDamage(Bench bench) {
    Status before = bench.open(Open.USUAL);
    byte[] beat = new Frame(Type.BEAT, bench.session(), new byte[4]).line();
    byte[] both = new byte[5 + beat.length];
    both[0] = 3;
    both[1] = 17;
    both[2] = 44;
    both[3] = 5;
    System.arraycopy(beat, 0, both, 5, beat.length);
    bench.raw(both);
    Status after = Status.of(bench.await(Type.STATUS).body(), bench.shape());
    assertThat(after.damaged()).isEqualTo(before.damaged() + 1);
    assertThat(after.whole()).isEqualTo(before.whole() + 1);
  }

  private static void pieces(Bench bench) {
    Status before = bench.open(Open.USUAL);
    for (byte b : new Frame(Type.BEAT, bench.session(), new byte[4]).line()) {
      bench.raw(new byte[] {b});
      bench.idle(500);
    }
    Status after = Status.of(bench.await(Type.STATUS).body(), bench.shape());
    assertThat(after.whole()).isEqualTo(before.whole() + 1);
  }

  private static void tooLong(Bench bench) {
    Status before = bench.open(Open.USUAL);
    byte[] body = new byte[Math.max(520, bench.shape().longestFrame())];
    Arrays.fill(body, (byte) 1);
    bench.raw(new Frame(NO_TYPE, bench.session(), body).line());
    bench.pass(200_000);
    Status after = bench.now();
    assertThat(after.state()).isEqualTo(Status.OPENED);
    assertThat(after.damaged()).as("counted as damaged").isEqualTo(before.damaged() + 1);
    assertThat(bench.came(Type.NACK)).isEmpty();
  }
}
