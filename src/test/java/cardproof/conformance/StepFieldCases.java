package cardproof.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;

/** Section 5: what is refused of a STEP and the rest, and in what order it is tested. */
final class StepFieldCases {
  private StepFieldCases() {}

  static Section section() {
    return new Section("5 NACK and its order")
        .add(
            "types without a meaning are unknown",
            bench -> {
              bench.open(Open.USUAL);
              for (int type : new int[] {0x09, 0x0F, 0x1B, 0x3F}) {
                assertThat(bench.nack(Frame.of(type, bench.session())).reason())
                    .isEqualTo(Nack.UNKNOWN_TYPE);
              }
            })
        .add(
            "types of capabilities that it lacks are unknown",
            bench -> {
              bench.open(Open.USUAL);
              unknown(bench, Capability.SEQUENCES, 0x10, 0x13);
              unknown(bench, Capability.CAPTURE, 0x14, 0x17);
              unknown(bench, Capability.SUPPLY, 0x18, 0x18);
              unknown(bench, Capability.SENSE, 0x19, 0x19);
              unknown(bench, Capability.ANALOGUE, 0x1A, 0x1A);
            })
        .add(
            "an unknown type of another session is an unknown type",
            bench -> {
              bench.open(Open.USUAL);
              assertThat(bench.nack(Frame.of(0x3F, bench.session() + 1)).reason())
                  .isEqualTo(Nack.UNKNOWN_TYPE);
            })
        .add("every message of a wrong length is refused", StepFieldCases::lengths)
        .add(
            "length is tested before session",
            bench -> {
              bench.open(Open.USUAL);
              assertThat(bench.nack(new Frame(Type.ARM, bench.session() + 1, new byte[1])).reason())
                  .isEqualTo(Nack.BAD_LENGTH);
            })
        .add(
            "session is tested before state",
            bench -> {
              bench.open(Open.USUAL);
              bench.stop();
              assertThat(bench.nack(Frame.of(Type.ARM, bench.session() + 1)).reason())
                  .isEqualTo(Nack.WRONG_SESSION);
            })
        .add(
            "state is tested before number",
            bench -> {
              bench.open(Open.USUAL);
              bench.stop();
              assertThat(bench.nack(bench.frame(Step.of(5))).reason()).isEqualTo(Nack.WRONG_STATE);
            })
        .add(
            "number is tested before slot and drives",
            bench -> {
              full(bench, Open.USUAL.allow(0));
              Step far = Step.of(bench.shape().slots() + 1L, 1).times(0, 0, 0);
              assertThat(bench.nack(bench.frame(far)).reason()).isEqualTo(Nack.OUT_OF_ORDER);
            })
        .add(
            "slot is tested before drives",
            bench -> {
              full(bench, Open.USUAL.allow(0));
              assertThat(bench.nack(bench.frame(Step.of(bench.shape().slots(), 1))).reason())
                  .isEqualTo(Nack.NO_SLOT);
            })
        .add(
            "drives are tested before fields",
            bench -> {
              bench.open(Open.USUAL.allow(0));
              assertThat(bench.nack(bench.frame(Step.of(0, 1).times(0, 0, 0))).reason())
                  .isEqualTo(Nack.DRIVE_OUTSIDE);
            })
        .add(
            "a repeat is answered with STATUS however bad its fields are",
            bench -> {
              bench.live(Open.USUAL.allow(0));
              bench.run(Step.of(0, 0).enabled(0));
              Step bad = Step.of(0, 1).times(0, 0, 0);
              assertThat(bench.status(bench.frame(bad)).next()).isEqualTo(1);
            })
        .add(
            "a drive outside the allowed set is refused and nothing moves",
            bench -> {
              bench.live(Open.USUAL.allow(0));
              Nack nack = bench.nack(bench.frame(Step.of(0, 0, 1).enabled(0, 1)));
              assertThat(nack.reason()).isEqualTo(Nack.DRIVE_OUTSIDE);
              assertThat(nack.next()).isZero();
              assertThat(nack.detail()).isZero();
              bench.run(Step.of(0, 0).enabled(0));
              assertThat(bench.now().drives()).isEqualTo(Sets.of(0));
            })
        .add("no watch time is refused", bench -> field(bench, Step.of(0).times(0, 0, 0), 9))
        .add("no quiet window is refused", bench -> field(bench, Step.of(0).times(0, 10, 0), 13))
        .add(
            "a quiet window longer than watch is refused",
            bench -> field(bench, Step.of(0).times(0, 1000, 1001), 13))
        .add(
            "a dwell after the end of watching is refused",
            bench ->
                field(bench, Step.of(0).flags(Step.DWELL).times(0, 1000, 1000).dwellAt(1001), 17))
        .add(
            "a dwell that is not asked for is not looked at",
            bench -> {
              bench.live(Open.USUAL);
              Result result = bench.run(Step.of(0).times(0, 5000, 1000).dwellAt(70_000));
              assertThat(result.has(Result.DWELT)).isFalse();
            })
        .add(
            "quiet as long as watch, and a limit beyond it, are taken",
            bench -> {
              bench.live(Open.USUAL);
              Result result = bench.run(Step.of(0).times(0xFFFFFFFFL, 9000, 9000));
              assertThat(result.has(Result.QUIET)).isTrue();
            })
        .add(
            "the longest watch there is is taken",
            bench -> {
              bench.live(Open.USUAL);
              bench.give(Step.of(0).times(0, 0xFFFFFFFFL, 3000));
              Result result = bench.result(0, 200_000);
              assertThat(result.has(Result.EARLY)).isTrue();
            })
        .add(
            "capture is refused where there is none",
            bench -> {
              Case.needs(!bench.shape().can(Capability.CAPTURE), "lack of capture");
              field(bench, Step.of(0).flags(Step.CAPTURE), 4);
            })
        .add(
            "flags without a meaning are refused",
            bench -> {
              for (int flag = 0x10; flag <= 0x80; flag <<= 1) {
                field(bench, Step.of(0).flags(flag), 4);
              }
            })
        .add(
            "flags without a meaning are refused in a sequence",
            bench -> {
              Case.needs(bench, Capability.SEQUENCES);
              field(bench, Step.of(0).flags(0x40).then(5000, 1), 4);
            })
        .add(
            "a refused step may be given again, put right",
            bench -> {
              bench.live(Open.USUAL);
              bench.nack(bench.frame(Step.of(0, 0).times(0, 0, 0)));
              assertThat(bench.now().next()).isZero();
              assertThat(bench.run(Step.of(0, 0)).step()).isZero();
            });
  }

  private static void unknown(Bench bench, Capability capability, int from, int to) {
    if (bench.shape().can(capability)) {
      return;
    }
    for (int type = from; type <= to; type++) {
      assertThat(bench.nack(Frame.of(type, bench.session())).reason()).isEqualTo(Nack.UNKNOWN_TYPE);
    }
  }

  private static void lengths(Bench bench) {
    bench.live(Open.USUAL);
    int s = bench.session();
    for (Frame right :
        new Frame[] {
          Frame.of(Type.ARM, s),
          Frame.of(Type.STOP, s),
          new Frame(Type.RESUME, s, new byte[4]),
          bench.frame(Step.of(0)),
          new Frame(Type.BEAT, s, new byte[4]),
          new Frame(Type.READ, s, new byte[4])
        }) {
      int length = right.body().length;
      Frame longer = new Frame(right.type(), s, Arrays.copyOf(right.body(), length + 1));
      assertThat(bench.nack(longer).reason()).isEqualTo(Nack.BAD_LENGTH);
      if (length > 0) {
        Frame shorter = new Frame(right.type(), s, Arrays.copyOf(right.body(), length - 1));
        assertThat(bench.nack(shorter).reason()).isEqualTo(Nack.BAD_LENGTH);
      }
    }
    Status status = bench.now();
    assertThat(status.state()).isEqualTo(Status.READY);
    assertThat(status.next()).isZero();
  }

  private static void full(Bench bench, Open open) {
    bench.open(open);
    for (int i = 0; i < bench.shape().slots(); i++) {
      bench.give(Step.of(i, 0).enabled(0));
    }
    bench.idle(20_000);
    assertThat(bench.now().next()).isEqualTo(bench.shape().slots());
  }

  private static void field(Bench bench, Step step, int offset) {
    bench.live(Open.USUAL);
    Nack nack = bench.nack(bench.frame(step));
    assertThat(nack.reason()).isEqualTo(Nack.BAD_FIELD);
    assertThat(nack.detail()).isEqualTo(offset);
    assertThat(nack.next()).isZero();
    assertThat(bench.now().next()).isZero();
  }
}
