package cardproof.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;

/** Sections 4 and 7: silence. */
final class SilenceCases {
  private static final Open SILENCE_150 = Open.USUAL.silence(150);

  /** How late it may act: section 7. */
  private static final long LATE_US = 20_000;

  private SilenceCases() {}

  static Section section() {
    return new Section("7 silence")
        .add(
            "silence drops the drives in READY, and tells",
            bench -> {
              bench.live(SILENCE_150);
              bench.run(Step.of(0, 0));
              Status status = fallen(bench);
              assertThat(status.finished()).isEqualTo(1);
            })
        .add("it takes as long as OPEN said", SilenceCases::howLong)
        .add(
            "silence ends a running step",
            bench -> {
              bench.live(SILENCE_150);
              bench.give(Step.of(0, 0).flags(Step.AUDIT).times(0, 900_000, 4000));
              bench.give(Step.of(1, 1));
              bench.idle(400_000);
              Status status = bench.now();
              assertThat(status.state()).isEqualTo(Status.SAFE);
              assertThat(status.cause()).isEqualTo(Status.BY_SILENCE);
              assertThat(status.finished()).isEqualTo(1);
              Result result = bench.result(0, Bench.ANSWER_US);
              assertThat(result.has(Result.STOPPED)).isTrue();
              assertThat(result.durationUs()).isBetween(100_000L, 150_000 + LATE_US);
              assertThat(bench.came(Type.RESULT)).hasSize(1);
            })
        .add(
            "silence makes OPENED safe",
            bench -> {
              bench.open(SILENCE_150);
              bench.idle(150_000 + LATE_US);
              assertThat(bench.now().state()).isEqualTo(Status.SAFE);
            })
        .add(
            "silence makes HELD safe",
            bench -> {
              bench.live(SILENCE_150);
              bench.run(StateCases.missing(0, 0));
              fallen(bench);
            })
        .add(
            "any frame of the session keeps it alive",
            bench -> {
              bench.live(SILENCE_150);
              bench.run(Step.of(0, 0));
              for (int i = 0; i < 2; i++) {
                bench.idle(100_000);
                bench.now();
                bench.idle(100_000);
                bench.arm();
                bench.idle(100_000);
                bench.read(0);
              }
              assertThat(bench.now().state()).isEqualTo(Status.READY);
            })
        .add(
            "HELLO does not keep it alive",
            bench -> {
              bench.live(SILENCE_150);
              bench.run(Step.of(0, 0));
              keepSaying(bench, new Frame(Type.HELLO, 5, new byte[] {1, 1}).line());
            })
        .add(
            "frames of another session do not keep it alive",
            bench -> {
              bench.live(SILENCE_150);
              bench.run(Step.of(0, 0));
              keepSaying(bench, new Frame(Type.BEAT, bench.session() ^ 4, new byte[4]).line());
            })
        .add(
            "damaged frames do not keep it alive",
            bench -> {
              bench.live(SILENCE_150);
              bench.run(Step.of(0, 0));
              byte[] beat = new Frame(Type.BEAT, bench.session(), new byte[4]).line();
              beat[beat.length - 2] ^= 0x40;
              beat[beat.length - 2] |= 0x01;
              keepSaying(bench, beat);
            })
        .add(
            "zero bytes do not keep it alive",
            bench -> {
              bench.live(SILENCE_150);
              bench.run(Step.of(0, 0));
              keepSaying(bench, new byte[3]);
            })
        .add(
            "frames refused for their type or length do not keep it alive",
            bench -> {
              bench.live(SILENCE_150);
              bench.run(Step.of(0, 0));
              keepSaying(bench, new Frame(0x3F, bench.session(), new byte[4]).line());
              bench.live(SILENCE_150);
              bench.run(Step.of(0, 0));
              keepSaying(bench, new Frame(Type.BEAT, bench.session(), new byte[3]).line());
            })
        .add(
            "frames refused for what they say keep it alive",
            bench -> {
              bench.live(SILENCE_150);
              bench.run(Step.of(0, 0));
              for (int i = 0; i < 3; i++) {
                bench.idle(100_000);
                bench.nack(bench.frame(Step.of(9)));
                bench.idle(100_000);
                bench.nack(bench.frame(Step.of(1).times(0, 0, 0)));
                bench.idle(100_000);
                bench.nack(new Frame(Type.BEAT, bench.session(), new byte[] {9, 0, 0, 0}));
              }
              assertThat(bench.now().state()).isEqualTo(Status.READY);
            })
        .add(
            "after silence the session answers, and goes no further",
            bench -> {
              bench.live(SILENCE_150);
              Result result = bench.run(Step.of(0, 0));
              fallen(bench);
              assertThat(bench.now().state()).isEqualTo(Status.SAFE);
              assertThat(bench.read(0)).isEqualTo(result);
              assertThat(bench.nack(Frame.of(Type.ARM, bench.session())).reason())
                  .isEqualTo(Nack.WRONG_STATE);
              assertThat(bench.nack(bench.frame(Step.of(1))).reason()).isEqualTo(Nack.WRONG_STATE);
              Status status = bench.stop();
              assertThat(status.cause()).isEqualTo(Status.BY_SILENCE);
            })
        .add(
            "after silence a new session can be opened",
            bench -> {
              bench.live(SILENCE_150);
              fallen(bench);
              bench.live(Open.USUAL);
              bench.run(Step.of(0, 0).expecting(0, true));
            });
  }

  private static Status fallen(Bench bench) {
    bench.forget(Type.STATUS);
    Status status =
        bench.awaitStatus(
            400_000, each -> each.state() == Status.SAFE, "STATUS of the drop by silence");
    assertThat(status.cause()).isEqualTo(Status.BY_SILENCE);
    assertThat(status.drives()).isEqualTo(Sets.of());
    return status;
  }

  private static void keepSaying(Bench bench, byte[] line) {
    for (int i = 0; i < 8; i++) {
      bench.raw(line);
      bench.idle(50_000);
    }
    Status status = bench.now();
    assertThat(status.state()).isEqualTo(Status.SAFE);
    assertThat(status.cause()).isEqualTo(Status.BY_SILENCE);
    assertThat(status.drives()).isEqualTo(Sets.of());
  }

  private static void howLong(Bench bench) {
    Case.needs(bench, Peer.Offer.EXACT_TIME);
    Case.needs(bench, Peer.Offer.TRUE_DRIVES);
    for (int ms : new int[] {100, 300}) {
      bench.live(Open.USUAL.silence(ms));
      bench.run(Step.of(0, 0));
      long saidNs = bench.peer().nowNs();
      bench.now();
      bench.idle(ms * 1000L + 50_000);
      List<Peer.Switch> all = bench.peer().switches();
      Peer.Switch last = all.get(all.size() - 1);
      assertThat(last.drives()).isEqualTo(Sets.of());
      assertThat((last.atNs() - saidNs) / 1000).isBetween(ms * 1000L - 1000, ms * 1000L + LATE_US);
    }
  }
}
