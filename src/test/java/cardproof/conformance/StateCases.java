package cardproof.conformance;

import static org.assertj.core.api.Assertions.assertThat;

/** Section 4: states, and ARM, STOP, RESUME in each. */
final class StateCases {
  private StateCases() {}

  /** A gated step that cannot match: watch 2 stays at 0. */
  static Step missing(long number, int... drives) {
    return Step.of(number, drives).flags(Step.GATE).times(0, 12_000, 3000).expecting(2, true);
  }

  static void hold(Bench bench) {
    bench.live(Open.USUAL);
    assertThat(bench.run(missing(0, 0)).has(Result.MISSED)).isTrue();
    assertThat(bench.now().state()).isEqualTo(Status.HELD);
  }

  static Section section() {
    return new Section("4 states")
        .add(
            "OPENED: steps are accepted and none starts",
            bench -> {
              bench.open(Open.USUAL);
              bench.give(Step.of(0, 0));
              bench.pass(60_000);
              Status status = bench.now();
              assertThat(status.state()).isEqualTo(Status.OPENED);
              assertThat(status.next()).isEqualTo(1);
              assertThat(status.finished()).isZero();
              assertThat(status.drives()).isEqualTo(Sets.of());
              assertThat(bench.came(Type.RESULT)).isEmpty();
            })
        .add(
            "ARM starts what is queued",
            bench -> {
              bench.open(Open.USUAL);
              bench.give(Step.of(0, 0));
              bench.arm();
              assertThat(bench.result(Step.of(0)).has(Result.MATCHED)).isTrue();
            })
        .add(
            "the STATUS that answers ARM may say that a step runs already",
            bench -> {
              bench.open(Open.USUAL);
              bench.give(Step.of(0, 0).flags(Step.AUDIT).times(0, 60_000, 1000));
              Status status = bench.arm();
              assertThat(status.state()).isIn(Status.READY, Status.RUN);
              assertThat(status.drives())
                  .as("what STATUS says belongs together")
                  .isEqualTo(status.state() == Status.RUN ? Sets.of(0) : Sets.of());
              bench.idle(10_000);
              assertThat(bench.now().state()).isEqualTo(Status.RUN);
            })
        .add(
            "ARM in READY and RUN changes nothing",
            bench -> {
              bench.live(Open.USUAL);
              assertThat(bench.arm().state()).isEqualTo(Status.READY);
              bench.give(Step.of(0, 0).flags(Step.AUDIT).times(0, 60_000, 1000));
              bench.idle(10_000);
              assertThat(bench.arm().state()).isEqualTo(Status.RUN);
              bench.result(Step.of(0).times(0, 60_000, 1000));
              assertThat(bench.arm().drives()).isEqualTo(Sets.of(0));
            })
        .add(
            "ARM in HELD changes nothing",
            bench -> {
              hold(bench);
              assertThat(bench.arm().state()).isEqualTo(Status.HELD);
            })
        .add(
            "ARM in SAFE is refused",
            bench -> {
              bench.open(Open.USUAL);
              bench.stop();
              assertThat(bench.nack(Frame.of(Type.ARM, bench.session())).reason())
                  .isEqualTo(Nack.WRONG_STATE);
            })
        .add(
            "STEP in SAFE is refused, its number whatever it is",
            bench -> {
              bench.live(Open.USUAL);
              bench.run(Step.of(0, 0));
              bench.stop();
              for (long number = 0; number < 3; number++) {
                Nack nack = bench.nack(bench.frame(Step.of(number)));
                assertThat(nack.reason()).isEqualTo(Nack.WRONG_STATE);
                assertThat(nack.next()).isEqualTo(1);
              }
            })
        .add(
            "STOP in OPENED makes it safe",
            bench -> {
              bench.open(Open.USUAL);
              assertThat(bench.stop().state()).isEqualTo(Status.SAFE);
            })
        .add(
            "STOP in READY drops the drives",
            bench -> {
              bench.live(Open.USUAL);
              bench.run(Step.of(0, 0, 1));
              Status status = bench.stop();
              assertThat(status.state()).isEqualTo(Status.SAFE);
              assertThat(status.cause()).isEqualTo(Status.BY_STOP);
              assertThat(status.drives()).isEqualTo(Sets.of());
            })
        .add("STOP in RUN ends the step, and the queue never runs", StateCases::stopInRun)
        .add(
            "STOP in HELD makes it safe",
            bench -> {
              hold(bench);
              Status status = bench.stop();
              assertThat(status.state()).isEqualTo(Status.SAFE);
              assertThat(status.cause()).isEqualTo(Status.BY_STOP);
              assertThat(status.drives()).isEqualTo(Sets.of());
            })
        .add(
            "STOP in SAFE changes nothing",
            bench -> {
              bench.live(Open.USUAL);
              bench.stop();
              Status status = bench.stop();
              assertThat(status.state()).isEqualTo(Status.SAFE);
              assertThat(status.cause()).isEqualTo(Status.BY_STOP);
            })
        .add("STOP drops every drive in one go", StateCases::inOneGo)
        .add(
            "a missed step holds: its drives stay and nothing more starts",
            bench -> {
              hold(bench);
              bench.give(Step.of(1, 1));
              bench.pass(60_000);
              Status status = bench.now();
              assertThat(status.state()).isEqualTo(Status.HELD);
              assertThat(status.next()).isEqualTo(2);
              assertThat(status.finished()).isEqualTo(1);
              assertThat(status.drives()).isEqualTo(Sets.of(0));
            })
        .add(
            "HELD is told unasked",
            bench -> {
              bench.live(Open.USUAL);
              bench.give(missing(0, 0));
              bench.idle(200_000);
              assertThat(
                      bench.came(Type.STATUS).stream()
                          .map(at -> Status.of(at.frame().body(), bench.shape()).state()))
                  .contains(Status.HELD);
            })
        .add(
            "RESUME goes on after the step that missed",
            bench -> {
              hold(bench);
              bench.give(Step.of(1, 1));
              bench.resume(0);
              assertThat(bench.result(Step.of(1)).step()).isEqualTo(1);
              Status status = bench.now();
              assertThat(status.state()).isEqualTo(Status.READY);
              assertThat(status.drives()).isEqualTo(Sets.of(1));
            })
        .add(
            "RESUME without anything queued is READY",
            bench -> {
              hold(bench);
              Status status = bench.resume(0);
              assertThat(status.state()).isEqualTo(Status.READY);
              assertThat(status.drives()).isEqualTo(Sets.of(0));
            })
        .add(
            "RESUME of another step changes nothing",
            bench -> {
              bench.live(Open.USUAL);
              bench.run(Step.of(0, 0));
              bench.run(missing(1, 0));
              assertThat(bench.resume(0).state()).isEqualTo(Status.HELD);
              assertThat(bench.resume(2).state()).isEqualTo(Status.HELD);
              assertThat(bench.resume(1).state()).isEqualTo(Status.READY);
            })
        .add(
            "RESUME where nothing is held changes nothing",
            bench -> {
              assertThat(bench.open(Open.USUAL).state()).isEqualTo(Status.OPENED);
              assertThat(bench.resume(0).state()).isEqualTo(Status.OPENED);
              bench.arm();
              bench.run(Step.of(0, 0));
              assertThat(bench.resume(0).state()).isEqualTo(Status.READY);
              bench.stop();
              assertThat(bench.resume(0).state()).isEqualTo(Status.SAFE);
            })
        .add(
            "a late RESUME goes on once",
            bench -> {
              hold(bench);
              bench.give(missing(1, 1));
              bench.resume(0);
              bench.result(missing(1));
              assertThat(bench.resume(0).state()).isEqualTo(Status.HELD);
              assertThat(bench.resume(1).state()).isEqualTo(Status.READY);
            })
        .add(
            "after STOP a new session goes on",
            bench -> {
              bench.live(Open.USUAL);
              bench.run(Step.of(0, 0));
              bench.stop();
              bench.live(Open.USUAL);
              bench.run(Step.of(0, 1));
              assertThat(bench.now().drives()).isEqualTo(Sets.of(1));
            })
        .add(
            "before the first step all drives are released",
            bench -> {
              bench.live(Open.USUAL);
              bench.pass(20_000);
              Status status = bench.now();
              assertThat(status.state()).isEqualTo(Status.READY);
              assertThat(status.drives()).isEqualTo(Sets.of());
            });
  }

  private static void stopInRun(Bench bench) {
    bench.live(Open.USUAL);
    bench.give(Step.of(0, 0).flags(Step.AUDIT).times(0, 400_000, 1000));
    bench.give(Step.of(1, 1));
    bench.idle(20_000);
    Status status = bench.stop();
    assertThat(status.state()).isEqualTo(Status.SAFE);
    assertThat(status.cause()).isEqualTo(Status.BY_STOP);
    assertThat(status.drives()).isEqualTo(Sets.of());
    Result result = bench.result(0, Bench.ANSWER_US);
    assertThat(result.has(Result.STOPPED)).isTrue();
    assertThat(result.has(Result.TRIPPED)).isFalse();
    assertThat(result.has(Result.EARLY)).isFalse();
    assertThat(result.durationUs()).isBetween(5_000L, 399_000L);
    bench.idle(500_000);
    Status later = bench.now();
    assertThat(later.finished()).isEqualTo(1);
    assertThat(later.drives()).isEqualTo(Sets.of());
    assertThat(bench.came(Type.RESULT)).hasSize(1);
  }

  private static void inOneGo(Bench bench) {
    Case.needs(bench, Peer.Offer.TRUE_DRIVES);
    bench.live(Open.USUAL);
    int drives = bench.shape().drives();
    int[] all = java.util.stream.IntStream.range(0, drives).toArray();
    bench.run(Step.of(0, all));
    long fromNs = bench.peer().nowNs();
    bench.stop();
    bench.idle(20_000);
    long[] times =
        bench.peer().switches().stream()
            .mapToLong(Peer.Switch::atNs)
            .filter(ns -> ns >= fromNs)
            .toArray();
    assertThat(times).isNotEmpty();
    assertThat(times[times.length - 1] - times[0]).isLessThan(1_000_000);
    assertThat(bench.peer().switches().get(bench.peer().switches().size() - 1).drives())
        .isEqualTo(Sets.of());
  }
}
