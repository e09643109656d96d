package cardproof.conformance;

import static org.assertj.core.api.Assertions.assertThat;

/** Sections 5 and 6: flag gate, and what makes a gated step missed. */
final class GateCases {
  private GateCases() {}

  private static CardScript card() {
    return new CardScript().follow(0, 0, 5000).follow(1, 1, 15_000).oscillate(2, 2500, 2);
  }

  private static Step gated(int... drives) {
    return Step.of(0, drives).flags(Step.GATE).times(10_000, 25_000, 4000);
  }

  static Section section() {
    return new Section("6 gated steps")
        .add("one that comes in time lets the next one start", card(), GateCases::inTime)
        .add(
            "one that is not matched has missed",
            card(),
            bench -> missed(bench, gated(0).expecting(3, true), Result.QUIET))
        .add(
            "one with a change after the limit has missed, though matched",
            card(),
            bench -> {
              Result result =
                  missed(
                      bench,
                      gated(0, 1).expecting(1, true),
                      Result.QUIET,
                      Result.MATCHED,
                      Result.EARLY);
              Near.of(bench, result).holds("duration", result.durationUs(), 19_000);
            })
        .add(
            "a change after the limit counts on a line that nobody cares for",
            card(),
            bench ->
                missed(
                    bench,
                    gated(0, 1).flags(Step.GATE | Step.AUDIT).expecting(0, true),
                    Result.QUIET,
                    Result.MATCHED))
        .add(
            "one that is not quiet has missed",
            card(),
            bench ->
                missed(
                    bench,
                    gated(0, 2).times(40_000, 25_000, 4000).expecting(0, true),
                    Result.MATCHED))
        .add(
            "one whose still line moved has missed",
            card(),
            bench ->
                missed(
                    bench,
                    gated(0).expecting(0, true).still(0),
                    Result.QUIET,
                    Result.MATCHED,
                    Result.EARLY))
        .add(
            "a still line that stays still does no harm",
            card(),
            bench -> {
              bench.live(Open.USUAL);
              Result result = bench.run(gated(0).expecting(0, true).still(1, 2));
              StepRunCases.flags(result, Result.QUIET, Result.MATCHED, Result.EARLY);
            })
        .add(
            "without the gate nothing is missed",
            card(),
            bench -> {
              bench.live(Open.USUAL);
              Result result = bench.run(gated(0, 1).flags(0).expecting(3, true).still(0));
              StepRunCases.flags(result, Result.QUIET);
              assertThat(bench.now().state()).isEqualTo(Status.READY);
            })
        .add(
            "a change that is seen within the limit is in time",
            card(),
            bench -> {
              bench.live(Open.USUAL);
              Result result = bench.run(gated(0).times(5500, 25_000, 4000).expecting(0, true));
              assertThat(result.has(Result.MISSED)).isFalse();
            })
        .add(
            "a gated dwell step is judged at its end",
            card(),
            bench -> {
              bench.live(Open.USUAL);
              Result result =
                  bench.run(
                      gated(0).flags(Step.GATE | Step.DWELL).dwellAt(2000).expecting(0, true));
              StepRunCases.flags(result, Result.QUIET, Result.MATCHED, Result.DWELT);
              assertThat(result.dwell()).isEqualTo(Sets.of());
            })
        .add(
            "a step after one that missed runs as usual",
            card(),
            bench -> {
              missed(bench, gated(0).expecting(3, true), Result.QUIET);
              bench.resume(0);
              Result next = bench.run(Step.of(1, 1).flags(Step.GATE).expecting(1, true));
              assertThat(next.has(Result.MISSED)).isFalse();
              assertThat(bench.now().state()).isEqualTo(Status.READY);
            });
  }

  private static void inTime(Bench bench) {
    bench.open(Open.USUAL);
    bench.give(gated(0).expecting(0, true));
    bench.give(Step.of(1, 1));
    bench.arm();
    StepRunCases.flags(bench.result(Step.of(0)), Result.QUIET, Result.MATCHED, Result.EARLY);
    assertThat(bench.result(Step.of(1)).step()).isEqualTo(1);
    assertThat(bench.now().state()).isEqualTo(Status.READY);
  }

  private static Result missed(Bench bench, Step step, int... others) {
    bench.live(Open.USUAL);
    Result result = bench.run(step);
    int[] bits = java.util.Arrays.copyOf(others, others.length + 1);
    bits[others.length] = Result.MISSED;
    StepRunCases.flags(result, bits);
    Status status = bench.now();
    assertThat(status.state()).isEqualTo(Status.HELD);
    assertThat(status.drives()).isEqualTo(step.level());
    return result;
  }
}
