package cardproof.run;

import cardproof.card.Card;
import cardproof.card.TestCards;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.HookUp;
import cardproof.fixture.Session;
import cardproof.fixture.SessionSettings;
import cardproof.link.LinkCounters;
import cardproof.log.SweepRecord;
import cardproof.log.Verdict;
import cardproof.plan.Generators;
import cardproof.plan.Plan;
import cardproof.plan.PlanSketch;
import cardproof.plan.Vector;
import cardproof.plan.VectorSource;
import cardproof.sim.DrivenCircuit;
import cardproof.sim.SimSettings;
import cardproof.sim.SimulatedBench;
import cardproof.sim.line.LineFault;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;

/**
 * A register card through the runner over a noisy line, with the drives watched where they enter
 * the card. Nothing is kept of its vectors but counts.
 *
 * @param patterns changes of what was driven, from the first vector on
 * @param amiss what was driven and should not have been; empty when all was as planned
 * @param virtualS how long it took on the bench's own clock
 */
record NoisyRun(
    RunEnding ending,
    long vectors,
    long passed,
    long patterns,
    List<String> amiss,
    LinkCounters counters,
    double wallS,
    double virtualS) {

  /**
   * A word register and a pulse counter: UP takes one more into M and, when it goes down again,
   * from there into C. A pulse too many shows from then on, and so does an older word loaded anew.
   */
  static Card card() {
    return TestCards.card()
        .input("D", 12)
        .input("LD", 1)
        .input("UP", 1)
        .output("Q", 12, "R")
        .output("N", 12, "C")
        .state("R", 12, "0", "LD ? D : R")
        .state("M", 12, "0", "UP ? C + 1 : M")
        .state("C", 12, "0", "UP ? C : M")
        .build();
  }

  static Plan plan(Card card, int rows, long seed) {
    return PlanSketch.of(card)
        .step(s -> s.each("D", Generators.random(12, rows, seed)).pulse("LD", 1).pulse("UP", 1))
        .plan();
  }

  /**
   * @param rows of three vectors each
   */
  static NoisyRun of(int rows, SimSettings settings) {
    Card card = card();
    Plan plan = plan(card, rows, settings.seed());
    Witness witness = new Witness(card, plan.vectors());
    SimulatedBench bench =
        new DrivenCircuit(card, settings.seed(), witness::driven).bench(settings);
    HookUp hookUp =
        HookUp.of(
            card,
            FixtureProfile.simulatedBench(HookUp.drivesNeeded(card), HookUp.watchesNeeded(card)));
    Tally tally = new Tally();
    try (Session session =
        Session.open(
            bench,
            hookUp,
            SessionSettings.standard(card.limits().holdMs()),
            new SplittableRandom(settings.seed()))) {
      long beganNs = System.nanoTime();
      RunEnding ending =
          new Runner(
                  session,
                  plan,
                  new Nowhere(),
                  new RunOptions(false),
                  new StopSignal(),
                  bench::nowNs,
                  List.of(tally))
              .run();
      witness.end();
      return new NoisyRun(
          ending,
          plan.vectorCount(),
          tally.count(Verdict.PASS),
          witness.patterns,
          witness.amiss,
          session.counters(),
          (System.nanoTime() - beganNs) / 1e9,
          bench.nowNs() / 1e9);
    }
  }

  /** So much of everything that can befall a frame, both ways, over an adapter that takes 16 ms. */
  static List<LineFault> noise(int percent) {
    return List.of(
        LineFault.parse(
            String.format(
                Locale.ROOT,
                "link: lose %1$d %%, repeat %1$d %%, flip %1$d %%, reorder %1$d %%, delay 16 ms",
                percent)));
  }

  @Override
  public String toString() {
    return String.format(
        Locale.ROOT,
        "%d of %d vectors passed, %d patterns; %.1f s for %.0f s of the bench; %s; %s",
        passed,
        vectors,
        patterns,
        wallS,
        virtualS,
        ending,
        counters);
  }

  /** Compares what is driven with what the plan has driven, neighbours that are alike as one. */
  private static final class Witness {
    private static final int MOST_TOLD = 10;

    private final Card card;
    private final VectorSource planned;
    private final List<String> amiss = new ArrayList<>();
    private BitSet last = new BitSet();
    private long patterns;
    private boolean dropped;

    private Witness(Card card, VectorSource planned) {
      this.card = card;
      this.planned = planned;
    }

    private void driven(BitSet lines) {
      BitSet wanted = next();
      patterns++;
      if (!lines.equals(wanted)) {
        tell("pattern " + patterns + " was " + lines + ", planned was " + wanted);
      }
    }

    /** The next planned pattern that differs from the one before; all down behind the last. */
    private BitSet next() {
      while (planned.hasNext()) {
        BitSet lines = lines(planned.next());
        if (!lines.equals(last)) {
          last = lines;
          return lines;
        }
      }
      if (dropped) {
        tell("driven again after the end");
      }
      dropped = true;
      return new BitSet();
    }

    private void end() {
      if (planned.hasNext()) {
        tell("the plan was not driven to its end");
      }
    }

    private void tell(String what) {
      if (amiss.size() < MOST_TOLD) {
        amiss.add(what);
      }
    }

    private BitSet lines(Vector vector) {
      BitSet lines = new BitSet();
      for (int bus = 0; bus < card.buses().size(); bus++) {
        long word = vector.level()[bus] & vector.enabled()[bus];
        for (; word != 0; word &= word - 1) {
          lines.set(card.firstLine(bus) + Long.numberOfTrailingZeros(word));
        }
      }
      return lines;
    }
  }

  private static final class Nowhere implements Records {
    @Override
    public void append(Judged judged) {}

    @Override
    public void supersedeLast(Judgement judgement) {}

    @Override
    public void sweep(SweepRecord sweep) {}

    @Override
    public void commit() {}
  }
}
