package cardproof.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;

/** Section 6, 6: a pattern held longer than allowed. */
final class HoldCases {
  private static final Open HOLD_60 = Open.USUAL.hold(60);

  /** How late it may act: section 7. */
  private static final long LATE_US = 5000;

  private HoldCases() {}

  static Section section() {
    return new Section("6 hold limit")
        .add(
            "a pattern that stays too long trips in READY",
            bench -> {
              bench.live(HOLD_60);
              Result result = bench.run(Step.of(0, 0).expecting(0, true));
              Status status = tripped(bench);
              assertThat(status.chattered()).isEqualTo(255);
              long heldUs = status.nowUs() - result.startUs();
              assertThat(heldUs).isBetween(59_900L, 60_000 + LATE_US);
              assertThat(bench.read(0)).isEqualTo(result);
            })
        .add("the drives really drop then", HoldCases::drop)
        .add(
            "a running step is ended by it",
            bench -> {
              bench.live(HOLD_60);
              bench.give(Step.of(0, 0).flags(Step.AUDIT).times(0, 300_000, 4000));
              Result result = bench.result(0, 200_000);
              assertThat(result.has(Result.TRIPPED)).isTrue();
              assertThat(result.durationUs()).isBetween(59_900L, 60_000 + LATE_US);
              tripped(bench);
            })
        .add(
            "HELD trips too",
            bench -> {
              bench.live(HOLD_60);
              bench.run(StateCases.missing(0, 0));
              tripped(bench);
            })
        .add(
            "BEAT does not prolong it",
            bench -> {
              bench.live(HOLD_60.silence(10_000));
              bench.run(Step.of(0, 0));
              for (int i = 0; i < 12; i++) {
                bench.now();
                bench.idle(10_000);
              }
              assertThat(bench.now().state()).isEqualTo(Status.TRIPPED);
            })
        .add(
            "a new pattern counts anew",
            bench -> {
              bench.live(HOLD_60);
              for (int i = 0; i < 6; i++) {
                Step step = Step.of(i, i % 2).flags(Step.AUDIT).times(0, 40_000, 4000);
                assertThat(bench.run(step).has(Result.TRIPPED)).isFalse();
                bench.beat(i + 1L);
              }
              assertThat(bench.now().state()).isEqualTo(Status.READY);
            })
        .add(
            "the same pattern given again counts anew",
            bench -> {
              bench.live(HOLD_60);
              for (int i = 0; i < 6; i++) {
                Step step = Step.of(i, 0).flags(Step.AUDIT).times(0, 40_000, 4000);
                assertThat(bench.run(step).has(Result.TRIPPED)).isFalse();
                bench.beat(i + 1L);
              }
              assertThat(bench.now().state()).isEqualTo(Status.READY);
              assertThat(tripped(bench).finished()).isEqualTo(6);
            })
        .add(
            "a pattern with nothing on counts as any other",
            bench -> {
              bench.live(HOLD_60);
              bench.run(Step.of(0, 0).flags(Step.AUDIT).times(0, 20_000, 4000));
              Result off = bench.run(Step.of(1));
              long heldUs = tripped(bench).nowUs() - off.startUs();
              assertThat(heldUs).isBetween(59_900L, 60_000 + LATE_US);
            })
        .add(
            "before the first step there is no pattern to hold",
            bench -> {
              bench.live(HOLD_60);
              bench.pass(200_000);
              assertThat(bench.now().state()).isEqualTo(Status.READY);
            })
        .add(
            "OPENED holds nothing",
            bench -> {
              bench.open(HOLD_60);
              bench.give(Step.of(0, 0));
              bench.pass(200_000);
              assertThat(bench.now().state()).isEqualTo(Status.OPENED);
            });
  }

  private static Status tripped(Bench bench) {
    Status status =
        bench.awaitStatus(100_000, each -> each.state() == Status.TRIPPED, "STATUS of a trip");
    assertThat(status.cause()).isEqualTo(Status.BY_HOLD);
    assertThat(status.drives()).isEqualTo(Sets.of());
    return status;
  }

  private static void drop(Bench bench) {
    Case.needs(bench, Peer.Offer.TRUE_DRIVES);
    bench.live(HOLD_60);
    bench.run(Step.of(0, 0));
    tripped(bench);
    List<Peer.Switch> all = bench.peer().switches();
    long onNs = all.stream().filter(each -> each.drives().get(0)).findFirst().orElseThrow().atNs();
    Peer.Switch last = all.get(all.size() - 1);
    assertThat(last.drives()).isEqualTo(Sets.of());
    assertThat((last.atNs() - onNs) / 1000).isBetween(59_900L, 60_000 + LATE_US);
  }
}
