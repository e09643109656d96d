package cardproof.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.BitSet;

/** Section 1: bits of a set beyond the last channel, and section 5: sets of drives. */
final class SetCases {
  private static final int STEP_SETS = 21;

  private SetCases() {}

  static Section section() {
    return new Section("1, 5 sets of channels")
        .add("STEP: a bit beyond the last channel is a bad field, in any set", SetCases::inStep)
        .add("SEQUENCE: a bit beyond the last drive is a bad field", SetCases::inEntry)
        .add("OPEN: a bit beyond the last channel is a bad field", SetCases::inOpen)
        .add("the fixture sends no bits beyond the last channel", SetCases::sent)
        .add(
            "a drive outside the allowed set may not be enabled, at level 0 either",
            bench -> {
              bench.live(Open.USUAL.allow(0));
              Nack nack = bench.nack(bench.frame(Step.of(0, 0).enabled(0, 1)));
              assertThat(nack.reason()).isEqualTo(Nack.DRIVE_OUTSIDE);
              assertThat(bench.now().next()).isZero();
            })
        .add(
            "the level of a drive outside the allowed set that is not enabled does no harm",
            bench -> {
              bench.live(Open.USUAL.allow(0));
              bench.run(Step.of(0, 0, 1).enabled(0));
              assertThat(bench.now().drives()).isEqualTo(Sets.of(0));
            });
  }

  private static void inStep(Bench bench) {
    HelloR shape = bench.shape();
    bench.live(Open.USUAL);
    int d = shape.d();
    int w = shape.w();
    boolean any = false;
    if (shape.drives() % 8 != 0) {
      any = true;
      BitSet beyond = Sets.of(shape.drives());
      assertBad(bench, bench.frame(step(beyond, Sets.of(), Sets.of())), STEP_SETS);
      Step enabled = Step.of(0).enabled(shape.drives());
      assertBad(bench, bench.frame(enabled), STEP_SETS + d);
    }
    if (shape.watches() % 8 != 0) {
      any = true;
      BitSet beyond = Sets.of(shape.watches());
      int at = STEP_SETS + 2 * d;
      assertBad(bench, bench.frame(step(Sets.of(), beyond, Sets.of())), at);
      assertBad(bench, bench.frame(step(Sets.of(), Sets.of(), beyond)), at + w);
      assertBad(bench, bench.frame(Step.of(0).still(shape.watches())), at + 2 * w);
    }
    Case.needs(any, "channels that leave bits of a byte over");
  }

  private static Step step(BitSet level, BitSet expect, BitSet care) {
    return Step.of(0, level.stream().toArray()).expecting(expect, care);
  }

  private static void inEntry(Bench bench) {
    Case.needs(bench, Capability.SEQUENCES);
    HelloR shape = bench.shape();
    Case.needs(shape.drives() % 8 != 0, "drives that leave bits of a byte over");
    bench.live(Open.USUAL);
    int first = STEP_SETS + 2 * shape.d() + 3 * shape.w() + 1;
    assertBad(bench, bench.frame(Step.of(0).then(5000, shape.drives())), first + 4);
  }

  private static void inOpen(Bench bench) {
    HelloR shape = bench.hello(1);
    Case.needs(shape.drives() % 8 + shape.watches() % 8 != 0, "bits of a byte that are left over");
    if (shape.drives() % 8 != 0) {
      open(bench, Open.USUAL.allow(0, shape.drives()), 19);
    }
    if (shape.watches() % 8 != 0) {
      open(bench, Open.USUAL.watch(0, shape.watches()), 19 + shape.d());
    }
  }

  private static void open(Bench bench, Open open, int offset) {
    HelloR shape = bench.hello(1);
    Nack nack = bench.nack(open.frame(9, shape, shape.boot(), shape.session()));
    assertThat(nack.reason()).isEqualTo(Nack.BAD_FIELD);
    assertThat(nack.detail()).isEqualTo(offset);
  }

  private static void sent(Bench bench) {
    HelloR shape = bench.shape();
    bench.live(Open.USUAL);
    Result result = bench.run(Step.of(0, 0));
    Status status = bench.now();
    assertThat(status.drives().length()).isLessThanOrEqualTo(shape.drives());
    for (BitSet set :
        new BitSet[] {
          result.before(),
          result.last(),
          result.dwell(),
          result.unstable(),
          result.glitched(),
          result.stirred(),
          status.watches(),
          status.stirred()
        }) {
      assertThat(set.length()).isLessThanOrEqualTo(shape.watches());
    }
  }

  private static void assertBad(Bench bench, Frame frame, int offset) {
    Nack nack = bench.nack(frame);
    assertThat(nack.reason()).as("reason for offset %d", offset).isEqualTo(Nack.BAD_FIELD);
    assertThat(nack.detail()).isEqualTo(offset);
    assertThat(bench.now().next()).isZero();
  }
}
