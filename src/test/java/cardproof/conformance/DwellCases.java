package cardproof.conformance;

import static org.assertj.core.api.Assertions.assertThat;

/** Section 6, 5: the dwell sample. */
final class DwellCases {
  private static final long DWELL_US = 10_000;

  private DwellCases() {}

  private static CardScript around() {
    return new CardScript()
        .follow(0, 0, 8600)
        .follow(1, 0, 9500)
        .follow(2, 0, 10_500)
        .follow(3, 0, 11_600);
  }

  private static Step dwelling(long number, int... drives) {
    return Step.of(number, drives).flags(Step.DWELL).times(0, 20_000, 4000).dwellAt(DWELL_US);
  }

  static Section section() {
    return new Section("6 dwell")
        .add(
            "the dwell sample is taken at its time",
            around(),
            bench -> {
              bench.live(Open.USUAL);
              Result result = bench.run(dwelling(0, 0));
              assertThat(result.has(Result.DWELT)).isTrue();
              assertThat(result.dwell()).isEqualTo(Sets.of(0, 1));
              assertThat(result.last()).isEqualTo(Sets.of(0, 1, 2, 3));
            })
        .add(
            "lines that changed within 1000 us of it are unstable",
            around(),
            bench -> {
              bench.live(Open.USUAL);
              assertThat(bench.run(dwelling(0, 0)).unstable()).isEqualTo(Sets.of(1, 2));
            })
        .add(
            "a dwell step never ends early",
            bench -> {
              bench.live(Open.USUAL);
              Result result = bench.run(dwelling(0, 0).expecting(0, true));
              StepRunCases.flags(result, Result.QUIET, Result.MATCHED, Result.DWELT);
              Near.of(bench, result).holds("duration", result.durationUs(), 20_000);
              assertThat(result.unstable()).isEqualTo(Sets.of());
              assertThat(result.dwell()).isEqualTo(Sets.of(0));
            })
        .add(
            "a line that bounces at the dwell sample is unstable",
            new CardScript().bounce(0, 0, 9000, 2, 700),
            bench -> {
              bench.live(Open.USUAL);
              assertThat(bench.run(dwelling(0, 0)).unstable()).isEqualTo(Sets.of(0));
            })
        .add(
            "dwell at the end of watching is taken",
            bench -> {
              bench.live(Open.USUAL);
              Result result = bench.run(dwelling(0, 0).dwellAt(20_000));
              assertThat(result.has(Result.DWELT)).isTrue();
              assertThat(result.dwell()).isEqualTo(Sets.of(0));
            })
        .add(
            "dwell and audit go together",
            bench -> {
              bench.live(Open.USUAL);
              Result result =
                  bench.run(dwelling(0, 0).flags(Step.DWELL | Step.AUDIT).dwellAt(3000));
              StepRunCases.flags(result, Result.QUIET, Result.MATCHED, Result.DWELT);
              assertThat(result.dwell()).isEqualTo(Sets.of());
              assertThat(result.last()).isEqualTo(Sets.of(0));
            })
        .add(
            "what changed before the start is not unstable, however near",
            new CardScript().follow(0, 0, 12_000),
            DwellCases::beforeTheStart)
        .add(
            "what changes after the end is not unstable, however near",
            new CardScript().follow(0, 0, 10_300),
            bench -> {
              bench.live(Open.USUAL);
              Result result = bench.run(dwelling(0, 0).times(0, 10_000, 4000));
              assertThat(result.has(Result.DWELT)).isTrue();
              bench.pass(5000);
              assertThat(bench.now().stirred()).isEqualTo(Sets.of(0));
              assertThat(bench.read(0).unstable()).isEqualTo(Sets.of());
            })
        .add(
            "a dwell of one step is not in the next",
            around(),
            bench -> {
              bench.live(Open.USUAL);
              bench.run(dwelling(0, 0));
              Result plain = bench.run(Step.of(1, 0));
              assertThat(plain.has(Result.DWELT)).isFalse();
              assertThat(plain.unstable()).isEqualTo(Sets.of());
            })
        .add(
            "a step stopped before its dwell has not taken it",
            bench -> {
              bench.live(Open.USUAL);
              bench.give(dwelling(0, 0).times(0, 400_000, 1000).dwellAt(300_000));
              bench.idle(20_000);
              bench.stop();
              Result result = bench.result(0, Bench.ANSWER_US);
              assertThat(result.has(Result.STOPPED)).isTrue();
              assertThat(result.has(Result.DWELT)).isFalse();
            });
  }

  /** The start comes at some time around the change; in some trials it comes just after it. */
  private static void beforeTheStart(Bench bench) {
    int just = 0;
    for (int trial = 0; trial < 32; trial++) {
      bench.live(Open.USUAL);
      Result first = bench.run(Step.of(0, 0).times(0, 20_000, 2000));
      bench.idle(400L * trial);
      Result second =
          bench.run(Step.of(1, 0).flags(Step.DWELL).times(0, 20_000, 4000).dwellAt(100));
      if (second.stirred().get(0)) {
        long beforeUs = second.startUs() - first.startUs() - 12_000;
        just += beforeUs < 800 ? 1 : 0;
        assertThat(second.unstable())
            .as("changed %d us before the start", beforeUs)
            .isEqualTo(Sets.of());
      }
      bench.stop();
      bench.pass(20_000);
    }
    assertThat(just).as("trials with a change just before the start").isPositive();
  }
}
