package cardproof.sim.circuit;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Wiring;
import java.lang.management.ManagementFactory;
import java.util.BitSet;
import java.util.HashMap;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/**
 * How often reachability alone cannot say what a faulty card does. All single faults of a 12-bit
 * ripple adder of 36 relays, each brought to rest by working out the whole net again and again.
 */
@Tag("bench")
class FastPathShareTest {
  private static final int WIDTH = 12;
  private static final int VECTORS = 16;
  private static final int MOST_ROUNDS = 60;
  private static final double SUPPLY = 12;
  private static final long VECTOR_NS = 1_000_000_000L;

  private long evaluations;
  private long leaving;
  private long clusters;
  private long unsure;
  private long notConverged;
  private long between;
  private long shorted;
  private long neverAtRest;
  private int mostUnsure;
  private final Map<Integer, Integer> rounds = new TreeMap<>();
  private final Map<Integer, Integer> distinct = new HashMap<>();

  @Test
  void allSingleFaultsOfAnAdder() {
    Wiring sound = Adders.ripple(WIDTH, Solder.pt(), true, true);
    Map<String, Wiring> faults = SingleFaults.of(sound);
    run("sound card", Map.of("none", sound));
    assertThat(leaving).as("evaluations of a sound card that leave the fast path").isZero();
    run("without flyback diodes", Map.of("none", Adders.ripple(WIDTH, Solder.pt(), false, false)));
    assertThat(leaving).isZero();
    run("single faults, no lamps", SingleFaults.of(Adders.ripple(WIDTH, Solder.pt(), true, false)));
    run("single faults, a lamp on each line", faults);
    assertThat(faults.size()).isGreaterThan(500);
    assertThat(evaluations).isGreaterThan(faults.size() * VECTORS);
  }

  /** The same through the engine: local groups, event by event, bounce and all. */
  @Test
  void theSameEventByEvent() {
    Map<String, Wiring> faults = SingleFaults.of(Adders.ripple(WIDTH, Solder.pt(), true, true));
    Tally sum = new Tally();
    long events = 0;
    long startNs = cpuNs();
    for (Wiring card : faults.values()) {
      BitSet watched = new BitSet();
      watched.set(2 * WIDTH + 1, 3 * WIDTH + 2);
      RelayCircuit circuit =
          new RelayCircuit(
              FaultyWiring.always(card), CircuitProbe.SUPPLY, watched, RelayCircuit.WATCH_OHMS, 1);
      Random random = new Random(5757);
      for (int v = 0; v < VECTORS; v++) {
        long word = random.nextLong() & (1L << 2 * WIDTH + 1) - 1;
        circuit.drive(v * VECTOR_NS, BitSet.valueOf(new long[] {word}));
        circuit.advance((v + 1) * VECTOR_NS);
      }
      sum.add(circuit.tally());
      events += circuit.events();
    }
    double us = (cpuNs() - startNs) / 1e3 / faults.size() / VECTORS;
    System.out.printf(
        "event by event: %d cards, %d events, %d evaluations, %.3f %% leave; %d groups, %d from the"
            + " memo, most rounds %d, %d slow; %.0f us a vector%n",
        faults.size(),
        events,
        sum.evaluations,
        100.0 * sum.weakEvaluations / sum.evaluations,
        sum.groups,
        sum.fromMemo,
        sum.mostRounds,
        sum.slowGroups,
        us);
    assertThat(sum.slowGroups).as("groups whose diodes did not fall into place").isZero();
    assertThat(sum.weakEvaluations).isPositive().isLessThan(sum.evaluations / 20);
  }

  private void run(String what, Map<String, Wiring> cards) {
    evaluations = leaving = clusters = unsure = notConverged = between = shorted = neverAtRest = 0;
    mostUnsure = 0;
    rounds.clear();
    int faultsLeaving = 0;
    long startNs = cpuNs();
    for (Wiring card : cards.values()) {
      long before = leaving;
      card(card);
      faultsLeaving += leaving > before ? 1 : 0;
    }
    double us = (cpuNs() - startNs) / 1e3 / cards.size() / VECTORS;
    System.out.printf(
        "%s: %d cards, %d evaluations, %.2f %% leave (%d cards), %.3f %% of clusters, most %d;"
            + " not converged %d, rounds %s; coils between thresholds %d, shorts %d,"
            + " never at rest %d; %.0f us a vector%n",
        what,
        cards.size(),
        evaluations,
        100.0 * leaving / evaluations,
        faultsLeaving,
        100.0 * unsure / clusters,
        mostUnsure,
        notConverged,
        rounds,
        between,
        shorted,
        neverAtRest,
        us);
  }

  private void card(Wiring card) {
    BitSet watched = new BitSet();
    watched.set(2 * WIDTH + 1, 3 * WIDTH + 2);
    WholeNet net = new WholeNet(card, SUPPLY, watched, 1000);
    Random random = new Random(5757);
    BitSet operated = new BitSet();
    for (int v = 0; v < VECTORS; v++) {
      BitSet driven = BitSet.valueOf(new long[] {random.nextLong() & (1L << 2 * WIDTH + 1) - 1});
      int round = 0;
      while (step(net, operated, driven) && round < MOST_ROUNDS) {
        round++;
      }
      neverAtRest += round == MOST_ROUNDS ? 1 : 0;
    }
  }

  private boolean step(WholeNet net, BitSet operated, BitSet driven) {
    net.solve(operated, driven);
    evaluations++;
    if (net.shorted) {
      shorted++;
      return false;
    }
    leaving += net.unsure > 0 ? 1 : 0;
    clusters += net.clusters;
    unsure += net.unsure;
    mostUnsure = Math.max(mostUnsure, net.unsure);
    notConverged += net.converged ? 0 : 1;
    rounds.merge(net.rounds, 1, Integer::sum);
    boolean moved = false;
    for (int r = 0; r < net.relays.size(); r++) {
      Relay relay = net.relays.get(r);
      double part = Math.abs(net.coilVolts(relay)) / 12;
      between += part >= 0.1 && part < 0.75 ? 1 : 0;
      boolean now = part >= 0.75 || part >= 0.1 && operated.get(r);
      moved |= now != operated.get(r);
      operated.set(r, now);
    }
    return moved;
  }

  /** Of this thread, since the machine may have other things to do. */
  private static long cpuNs() {
    return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
  }
}
