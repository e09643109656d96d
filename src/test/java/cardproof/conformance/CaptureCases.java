package cardproof.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;

/** Section 9.2: every edge. */
final class CaptureCases {
  private CaptureCases() {}

  private static CardScript card() {
    return new CardScript().bounce(0, 0, 5000, 2, 900).follow(1, 0, 6100).oscillate(2, 1000, 1);
  }

  private static Step captured(long number, int... drives) {
    return Step.of(number, drives).flags(Step.CAPTURE).times(0, 40_000, 4000);
  }

  private static Case.Body with(Case.Body body) {
    return bench -> {
      Case.needs(bench, Capability.CAPTURE);
      body.run(bench);
    };
  }

  static Section section() {
    return new Section("9.2 capture")
        .add("every edge of a step is kept in order", card(), with(CaptureCases::order))
        .add(
            "READ_EDGES goes on from any index",
            card(),
            with(
                bench -> {
                  bench.live(Open.USUAL);
                  bench.run(captured(0, 0).expecting(0, true));
                  List<Edges.Edge> all = all(bench, 0);
                  for (int from = 0; from < all.size(); from++) {
                    Edges some = bench.edges(0, from);
                    assertThat(some.index()).isEqualTo(from);
                    assertThat(some.edges())
                        .isEqualTo(all.subList(from, from + some.edges().size()));
                  }
                }))
        .add(
            "an index beyond the end gives no edges",
            card(),
            with(
                bench -> {
                  bench.live(Open.USUAL);
                  bench.run(captured(0, 0).expecting(0, true));
                  int kept = bench.edges(0, 0).kept();
                  for (int from : new int[] {kept, kept + 1, 65535}) {
                    Edges none = bench.edges(0, from);
                    assertThat(none.edges()).isEmpty();
                    assertThat(none.kept()).isEqualTo(kept);
                    assertThat(none.index()).isEqualTo(kept);
                  }
                }))
        .add(
            "edges can be read twice, and after STOP",
            card(),
            with(
                bench -> {
                  bench.live(Open.USUAL);
                  bench.run(captured(0, 0).expecting(0, true));
                  List<Edges.Edge> all = all(bench, 0);
                  assertThat(all(bench, 0)).isEqualTo(all);
                  bench.stop();
                  assertThat(all(bench, 0)).isEqualTo(all);
                }))
        .add(
            "a step without capture has no edges",
            card(),
            with(
                bench -> {
                  bench.live(Open.USUAL);
                  bench.run(Step.of(0, 0));
                  assertThat(bench.status(bench.readEdges(0, 0)).finished()).isEqualTo(1);
                  assertThat(bench.came(Type.EDGES)).isEmpty();
                }))
        .add(
            "a step that runs, or was acknowledged, has no edges",
            card(),
            with(
                bench -> {
                  bench.live(Open.USUAL);
                  bench.give(captured(0, 0).flags(Step.CAPTURE | Step.AUDIT));
                  bench.idle(10_000);
                  assertThat(bench.status(bench.readEdges(0, 0)).state()).isEqualTo(Status.RUN);
                  bench.result(captured(0));
                  assertThat(all(bench, 0)).isNotEmpty();
                  bench.beat(1);
                  assertThat(bench.status(bench.readEdges(0, 0)).acked()).isEqualTo(1);
                }))
        .add(
            "a second step with capture waits for the acknowledgement",
            card(),
            with(
                bench -> {
                  bench.live(Open.USUAL);
                  bench.run(captured(0, 0));
                  Nack nack = bench.nack(bench.frame(captured(1)));
                  assertThat(nack.reason()).isEqualTo(Nack.NO_SLOT);
                  bench.beat(1);
                  bench.run(captured(1));
                  assertThat(bench.edges(1, 0).step()).isEqualTo(1);
                }))
        .add(
            "a plain step may follow one with capture, whose edges stay",
            card(),
            with(
                bench -> {
                  bench.live(Open.USUAL);
                  bench.run(captured(0, 0).expecting(0, true));
                  List<Edges.Edge> all = all(bench, 0);
                  bench.run(Step.of(1));
                  assertThat(all(bench, 0)).isEqualTo(all);
                }))
        .add(
            "a step with capture is alone",
            card(),
            with(
                bench -> {
                  bench.open(Open.USUAL);
                  bench.give(Step.of(0, 0));
                  assertThat(bench.nack(bench.frame(captured(1))).reason()).isEqualTo(Nack.NO_SLOT);
                  bench.open(Open.USUAL);
                  bench.give(captured(0, 0));
                  assertThat(bench.nack(bench.frame(Step.of(1))).reason()).isEqualTo(Nack.NO_SLOT);
                  assertThat(bench.status(bench.frame(captured(0))).next()).isEqualTo(1);
                }))
        .add(
            "edges that are too many are counted",
            new CardScript().oscillate(2, 1000, 1),
            with(CaptureCases::tooMany))
        .add(
            "an unwatched line has no edges",
            card(),
            with(
                bench -> {
                  bench.live(Open.USUAL.watch(1));
                  bench.run(captured(0, 0).flags(Step.CAPTURE | Step.AUDIT));
                  assertThat(all(bench, 0)).extracting(Edges.Edge::watch).containsExactly(1);
                }))
        .add(
            "a step where nothing moves has none",
            card(),
            with(
                bench -> {
                  bench.live(Open.USUAL);
                  bench.run(captured(0));
                  Edges edges = bench.edges(0, 0);
                  assertThat(edges.kept() + edges.lost() + edges.edges().size()).isZero();
                }))
        .add(
            "edges of a sequence count from the start of the step",
            card(),
            with(
                bench -> {
                  Case.needs(bench, Capability.SEQUENCES);
                  bench.live(Open.USUAL);
                  Result result =
                      bench.run(captured(0).flags(Step.CAPTURE | Step.AUDIT).then(10_000, 0));
                  List<Edges.Edge> all = all(bench, 0);
                  Near.of(bench, result).holds("first edge", all.get(0).atUs(), 15_000);
                  assertThat(all).hasSize(6);
                }))
        .add(
            "READ_EDGES of a wrong length is refused",
            with(
                bench -> {
                  bench.live(Open.USUAL);
                  Frame frame = new Frame(Type.READ_EDGES, bench.session(), new byte[5]);
                  assertThat(bench.nack(frame).reason()).isEqualTo(Nack.BAD_LENGTH);
                }));
  }

  private static List<Edges.Edge> all(Bench bench, long step) {
    List<Edges.Edge> all = new ArrayList<>();
    Edges some;
    do {
      some = bench.edges(step, all.size());
      assertThat(some.step()).isEqualTo(step);
      assertThat(some.index()).isEqualTo(all.size());
      all.addAll(some.edges());
    } while (!some.edges().isEmpty() && all.size() < some.kept());
    assertThat(all).hasSize(some.kept());
    return all;
  }

  private static void order(Bench bench) {
    bench.live(Open.USUAL);
    Result result = bench.run(captured(0, 0).flags(Step.CAPTURE | Step.AUDIT));
    List<Edges.Edge> all = all(bench, 0);
    long[] wantedUs = {5000, 5900, 6100, 6800, 7700, 8600};
    int[] watch = {0, 0, 1, 0, 0, 0};
    boolean[] level = {true, false, true, true, false, true};
    assertThat(all).hasSize(wantedUs.length);
    for (int i = 0; i < wantedUs.length; i++) {
      Near.of(bench, result).holds("edge " + i, all.get(i).atUs(), wantedUs[i]);
      assertThat(all.get(i).watch()).isEqualTo(watch[i]);
      assertThat(all.get(i).level()).isEqualTo(level[i]);
    }
    assertThat(result.entry(0).firstUs()).isEqualTo(all.get(0).atUs());
    assertThat(result.entry(0).lastUs()).isEqualTo(all.get(5).atUs());
    assertThat(result.entry(1).firstUs()).isEqualTo(all.get(2).atUs());
  }

  private static void tooMany(Bench bench) {
    int most = bench.shape().mostEdges();
    Case.needs(most <= 2000, "limit low enough to be reached");
    bench.live(Open.USUAL.chatter(255, 65535, 65535));
    long watchUs = 1000L * (most + 12) + 500;
    Step step = captured(0, 1).times(0, watchUs, 4000);
    bench.give(step);
    Result result = bench.result(step);
    assertThat(result.entry(2).changes()).isEqualTo(most + 12);
    Edges edges = bench.edges(0, 0);
    assertThat(edges.kept()).isEqualTo(most);
    assertThat(edges.lost()).isEqualTo(12);
    List<Edges.Edge> all = all(bench, 0);
    Near.of(bench, result).holds("last kept", all.get(most - 1).atUs(), 1000L * most);
  }
}
