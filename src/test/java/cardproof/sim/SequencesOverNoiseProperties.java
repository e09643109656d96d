package cardproof.sim;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.link.Edge;
import cardproof.link.HostLink;
import cardproof.link.LinkEvent;
import cardproof.link.OpenRequest;
import cardproof.link.StepRequest;
import cardproof.link.Switching;
import cardproof.sim.line.LineFault;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;

/**
 * Host and simulated fixture with a line between them that loses, repeats, damages and delays: each
 * step and each entry of each sequence is switched once and in order, and all edges come.
 */
class SequencesOverNoiseProperties {
  private static final int STEPS = 40;
  private static final BitSet ALL = RawHost.all(8);

  @Property(tries = 25)
  void exactlyOnceInBothDirections(
      @ForAll long seed, @ForAll @IntRange(min = 2, max = 6) int slots) {
    Random random = new Random(seed);
    List<Long> expected = new ArrayList<>();
    List<Long> patterns = new ArrayList<>();
    SimSettings settings =
        SimSettings.of(seed, "01")
            .withSlots(slots)
            .withLineFaults(
                List.of(
                    LineFault.parse(
                        "link: lose 8 %, repeat 8 %, flip 8 %, reorder 8 % within 60 ms")));
    SimulatedBench bench = new ScriptedCircuit().flipEvery(0, 7.3, 2000).bench(8, 2, settings);
    bench.watchDrives((nowNs, on) -> patterns.add(Steps.bits(on)));
    List<StepRequest> steps = new ArrayList<>();
    for (int i = 0; i < STEPS; i++) {
      steps.add(request(i, random));
      expected.add(Steps.bits(steps.get(i).level()));
      steps.get(i).later().forEach(entry -> expected.add(Steps.bits(entry.level())));
    }
    try (HostLink link = HostLink.connect(bench, random)) {
      link.open(new OpenRequest(1000, 255, 65_000, 2000, 10_000, ALL, Steps.set(3)));
      link.renewLease();
      link.arm();
      run(link, bench, steps);
    }
    assertThat(patterns.subList(0, expected.size())).isEqualTo(expected);
  }

  private static void run(HostLink link, SimulatedBench bench, List<StepRequest> steps) {
    int submitted = 0;
    int arrived = 0;
    while (arrived < steps.size()) {
      link.renewLease();
      while (submitted < steps.size() && link.hasRoomFor(steps.get(submitted))) {
        assertThat(link.submit(steps.get(submitted))).isEqualTo(submitted);
        submitted++;
      }
      LinkEvent event = link.attend(bench.nowNs() + 2_000_000_000L);
      assertThat(event).isInstanceOf(LinkEvent.ResultArrived.class);
      LinkEvent.ResultArrived result = (LinkEvent.ResultArrived) event;
      assertThat(result.result().number()).isEqualTo(arrived);
      assertEdges(steps.get(arrived), result);
      arrived++;
      link.acknowledge(arrived);
    }
  }

  /** First change, last change and number of changes say the same as the edges. */
  private static void assertEdges(StepRequest step, LinkEvent.ResultArrived arrived) {
    List<Edge> edges = arrived.edges().edges();
    if (!step.capture()) {
      assertThat(edges).isEmpty();
      return;
    }
    arrived
        .result()
        .moved()
        .forEach(
            moved -> {
              assertThat(edges).hasSize(moved.changes());
              assertThat(edges.get(0).atUs()).isEqualTo(moved.firstUs());
              assertThat(edges.get(edges.size() - 1).atUs()).isEqualTo(moved.lastUs());
              assertThat(edges.get(edges.size() - 1).level())
                  .isEqualTo(arrived.result().last().get(0));
            });
  }

  private static StepRequest request(int number, Random random) {
    List<Switching> later = new ArrayList<>();
    int entries = random.nextInt(3) == 0 ? 1 + random.nextInt(4) : 0;
    for (int i = 0; i < entries; i++) {
      later.add(new Switching(1000L * (i + 1), Steps.set(128 + i), ALL));
    }
    BitSet none = new BitSet();
    return new StepRequest(
        false,
        true,
        false,
        random.nextInt(3) == 0,
        20_000,
        25_000,
        1000,
        0,
        Steps.set(1 + number),
        ALL,
        none,
        none,
        none,
        later);
  }
}
