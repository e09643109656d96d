package cardproof.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.BitSet;
import java.util.List;

/** Section 6, 6: chatter, and what a trip leaves. */
final class TripCases {
  private static final Open FOUR_MOVES = Open.USUAL.chatter(4, 60000, 1000);

  private TripCases() {}

  private static CardScript card() {
    return new CardScript().follow(0, 0, 2000).oscillate(2, 3000, 1);
  }

  /** Trips with drive 0 and 1 on, at the fourth move of watch 2, and one more step is queued. */
  private static Result trip(Bench bench) {
    bench.open(FOUR_MOVES);
    bench.give(Step.of(0, 0, 1).flags(Step.AUDIT).times(0, 60_000, 4000));
    bench.give(Step.of(1, 0));
    bench.arm();
    return bench.result(0, 200_000);
  }

  static Section section() {
    return new Section("6 chatter and trips")
        .add(
            "a line that moves too often trips",
            card(),
            bench -> {
              Result result = trip(bench);
              assertThat(result.has(Result.TRIPPED)).isTrue();
              assertThat(result.has(Result.EARLY)).isFalse();
              assertThat(result.has(Result.STOPPED)).isFalse();
              assertThat(result.entry(2).moves()).isEqualTo(4);
              Near.of(bench, result).holds("duration", result.durationUs(), 12_000);
              Status status = bench.now();
              assertThat(status.state()).isEqualTo(Status.TRIPPED);
              assertThat(status.cause()).isEqualTo(Status.BY_CHATTER);
              assertThat(status.chattered()).isEqualTo(2);
              assertThat(status.drives()).isEqualTo(Sets.of());
            })
        .add(
            "a trip is told unasked",
            card(),
            bench -> {
              trip(bench);
              bench.idle(10_000);
              assertThat(
                      bench.came(Type.STATUS).stream()
                          .map(at -> Status.of(at.frame().body(), bench.shape()).state()))
                  .contains(Status.TRIPPED);
            })
        .add("a trip drops every drive at once", card(), TripCases::dropsAtOnce)
        .add(
            "what was queued never runs after a trip",
            card(),
            bench -> {
              trip(bench);
              bench.pass(100_000);
              Status status = bench.now();
              assertThat(status.next()).isEqualTo(2);
              assertThat(status.finished()).isEqualTo(1);
              assertThat(bench.came(Type.RESULT)).hasSize(1);
            })
        .add(
            "a line that changes too often trips",
            new CardScript().oscillate(2, 600, 1),
            bench -> {
              bench.live(Open.USUAL.chatter(200, 20, 60_000));
              bench.give(Step.of(0, 1).times(0, 60_000, 4000));
              Result result = bench.result(0, 200_000);
              assertThat(result.has(Result.TRIPPED)).isTrue();
              assertThat(result.entry(2).changes()).isEqualTo(20);
              assertThat(result.entry(2).moves()).isEqualTo(1);
              Near.of(bench, result).holds("duration", result.durationUs(), 12_000);
              assertThat(bench.now().chattered()).isEqualTo(2);
            })
        .add(
            "one fewer than the limit does not trip, and each step counts anew",
            card(),
            bench -> {
              bench.live(FOUR_MOVES);
              for (int round = 0; round < 2; round++) {
                Step three = Step.of(2 * round, 1).flags(Step.AUDIT).times(0, 10_500, 1000);
                Step rest = Step.of(2 * round + 1).times(0, 20_000, 8000);
                bench.give(three);
                bench.give(rest);
                assertThat(bench.result(three).entry(2).moves()).isEqualTo(3);
                bench.result(rest);
                bench.beat(2L * round + 2);
              }
              assertThat(bench.now().state()).isEqualTo(Status.READY);
            })
        .add(
            "a line that is not watched does not trip",
            card(),
            bench -> {
              bench.live(
                  new Open(
                      1000,
                      4,
                      60000,
                      1000,
                      60_000,
                      java.util.Optional.empty(),
                      java.util.Optional.of(Sets.of(0))));
              bench.run(Step.of(0, 1).flags(Step.AUDIT).times(0, 30_000, 4000));
              assertThat(bench.now().state()).isEqualTo(Status.READY);
            })
        .add(
            "two lines below the limit do not trip together",
            new CardScript().oscillate(2, 3000, 1).oscillate(1, 3100, 1),
            bench -> {
              bench.live(FOUR_MOVES);
              Result result = bench.run(Step.of(0, 1).flags(Step.AUDIT).times(0, 11_000, 1000));
              assertThat(result.has(Result.TRIPPED)).isFalse();
              assertThat(result.moved()).isEqualTo(2);
            })
        .add(
            "chatter between steps trips too: it belongs to the step before",
            card(),
            bench -> {
              bench.live(FOUR_MOVES);
              Result result = bench.run(Step.of(0, 1).times(0, 20_000, 2000));
              assertThat(result.has(Result.EARLY)).isTrue();
              Status status =
                  bench.awaitStatus(
                      100_000, each -> each.state() == Status.TRIPPED, "STATUS of a trip");
              assertThat(status.cause()).isEqualTo(Status.BY_CHATTER);
              assertThat(status.chattered()).isEqualTo(2);
              assertThat(status.drives()).isEqualTo(Sets.of());
            })
        .add(
            "chatter in HELD trips",
            card(),
            bench -> {
              bench.live(FOUR_MOVES);
              bench.run(Step.of(0, 1).flags(Step.GATE).times(0, 8000, 4000).expecting(0, true));
              Status status =
                  bench.awaitStatus(
                      100_000, each -> each.state() == Status.TRIPPED, "STATUS of a trip");
              assertThat(status.cause()).isEqualTo(Status.BY_CHATTER);
            })
        .add(
            "TRIPPED: steps and ARM are refused",
            card(),
            bench -> {
              trip(bench);
              for (Frame frame :
                  List.of(
                      Frame.of(Type.ARM, bench.session()),
                      bench.frame(Step.of(2)),
                      bench.frame(Step.of(0)))) {
                Nack nack = bench.nack(frame);
                assertThat(nack.reason()).isEqualTo(Nack.WRONG_STATE);
                assertThat(nack.next()).isEqualTo(2);
              }
            })
        .add(
            "TRIPPED: STOP, RESUME and BEAT change nothing",
            card(),
            bench -> {
              trip(bench);
              assertThat(bench.stop().state()).isEqualTo(Status.TRIPPED);
              assertThat(bench.resume(0).state()).isEqualTo(Status.TRIPPED);
              Status status = bench.now();
              assertThat(status.state()).isEqualTo(Status.TRIPPED);
              assertThat(status.cause()).isEqualTo(Status.BY_CHATTER);
              assertThat(status.chattered()).isEqualTo(2);
            })
        .add(
            "TRIPPED: results can be read",
            card(),
            bench -> {
              Result result = trip(bench);
              assertThat(bench.read(0)).isEqualTo(result);
            })
        .add(
            "TRIPPED: silence changes nothing",
            card(),
            bench -> {
              bench.live(FOUR_MOVES.silence(100));
              bench.give(Step.of(0, 0, 1).flags(Step.AUDIT).times(0, 60_000, 4000));
              bench.result(0, 80_000);
              bench.idle(300_000);
              Status status = bench.now();
              assertThat(status.state()).isEqualTo(Status.TRIPPED);
              assertThat(status.cause()).isEqualTo(Status.BY_CHATTER);
            })
        .add(
            "TRIPPED: OPEN leaves it",
            card(),
            bench -> {
              trip(bench);
              bench.live(Open.USUAL);
              Status status = bench.now();
              assertThat(status.cause()).isEqualTo(Status.BY_OPEN);
              assertThat(status.chattered()).isEqualTo(255);
              bench.run(Step.of(0, 0).expecting(0, true));
            });
  }

  private static void dropsAtOnce(Bench bench) {
    Case.needs(bench, Peer.Offer.TRUE_DRIVES);
    Result result = trip(bench);
    bench.idle(10_000);
    List<Peer.Switch> switches = bench.peer().switches();
    BitSet on = Sets.of(0, 1);
    long onNs =
        switches.stream().filter(each -> each.drives().equals(on)).findFirst().orElseThrow().atNs();
    Peer.Switch last = switches.get(switches.size() - 1);
    assertThat(last.drives()).isEqualTo(Sets.of());
    Near near = Near.of(bench, result);
    assertThat((last.atNs() - onNs) / 1000)
        .as("from the drives going on to the drop, us")
        .isBetween(12_000 - near.earlierUs(), 12_000 + near.laterUs() + 1000);
  }
}
