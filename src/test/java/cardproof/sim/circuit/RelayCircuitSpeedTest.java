package cardproof.sim.circuit;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.wiring.Wiring;
import java.lang.management.ManagementFactory;
import java.util.BitSet;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/**
 * How fast the engine is, bounce and all. Figures are printed; only ratios within a run are held.
 */
@Tag("bench")
class RelayCircuitSpeedTest {
  private static final int WIDTH = 16;
  private static final int ALL = 1 << WIDTH;

  @Test
  void everyInputOfAPlusOneChain() {
    Wiring wiring = Adders.plusOne(WIDTH, Solder.pt());
    run("warm-up", wiring, 1, 20_000, false);
    run("counting up", wiring, 1, ALL, false);
    double usPerEvent = run("in random order", wiring, 1, ALL, true);
    double whole = wholeNetUs(wiring);
    System.out.printf(
        Locale.ROOT,
        "one event %.3f us, the whole net anew %.1f us: %.0f times%n",
        usPerEvent,
        whole,
        whole / usPerEvent);
    assertThat(whole / usPerEvent).isGreaterThan(3);
  }

  private static double run(String what, Wiring wiring, long unit, int vectors, boolean random) {
    CircuitProbe chain = CircuitProbe.of(wiring, unit);
    Random order = new Random(16);
    long mask = ALL - 1;
    long startWall = System.nanoTime();
    long start = cpuNs();
    long wrong = 0;
    for (int i = 0; i < vectors; i++) {
      long word = random ? order.nextLong() & mask : i & mask;
      chain.drive(word);
      chain.rest();
      wrong += chain.word(WIDTH, WIDTH) == (word + 1 & mask) ? 0 : 1;
    }
    double us = (cpuNs() - start) / 1e3;
    double wallUs = (System.nanoTime() - startWall) / 1e3;
    long events = chain.circuit.events();
    Tally tally = chain.circuit.tally();
    System.out.printf(
        Locale.ROOT,
        "%s: %d vectors, %.0f us of processor and %.0f us of wall time and %.0f events a vector,"
            + " %.2f (%.2f) million events/s, %d evaluations, %d weak%n",
        what,
        vectors,
        us / vectors,
        wallUs / vectors,
        (double) events / vectors,
        events / us,
        events / wallUs,
        tally.evaluations,
        tally.weakEvaluations);
    assertThat(wrong).isZero();
    return us / events;
  }

  /** The same levels, reachability alone, for all nodes at once. */
  private static double wholeNetUs(Wiring wiring) {
    Elements parts =
        new Elements(FaultyWiring.always(wiring), new BitSet(), RelayCircuit.WATCH_OHMS);
    boolean[] closed = new boolean[parts.switches.size()];
    Random random = new Random(3);
    for (int i = 0; i < parts.firstDrive; i++) {
      closed[i] = random.nextInt(3) == 0;
    }
    Nets nets = new Nets(new Topology(parts, new BitSet()), closed, 12);
    int rounds = 20_000;
    long start = 0;
    for (int i = 0; i < 2 * rounds; i++) {
      if (i == rounds) {
        start = cpuNs();
      }
      nets.setSupply(12 + (i & 1));
      nets.settle();
    }
    return (cpuNs() - start) / 1e3 / rounds;
  }

  /** Of this thread, since the machine may have other things to do. */
  private static long cpuNs() {
    return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
  }
}
