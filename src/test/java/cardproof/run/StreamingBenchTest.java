package cardproof.run;

import cardproof.files.PlanFile;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.HookUp;
import cardproof.fixture.Session;
import cardproof.fixture.SessionSettings;
import cardproof.log.BenchLog;
import cardproof.log.RunEnd;
import cardproof.log.RunWriter;
import cardproof.log.SumCard;
import cardproof.log.SweepRecord;
import cardproof.log.UnitId;
import cardproof.log.Verdict;
import cardproof.plan.Plan;
import cardproof.plan.VectorSource;
import cardproof.sim.SimSettings;
import cardproof.sim.SimulatedBench;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * How many vectors of the sum card a second go from plan to verdict on the simulated bench, in
 * virtual time: with and without the bench log, beside the bare making of the same vectors.
 */
@Tag("bench")
class StreamingBenchTest {
  private static final int ROUNDS = 4;
  private static final long VECTORS = 60_000;

  @TempDir private Path folder;

  /** Counts, and keeps nothing. */
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

  @Test
  void vectorsASecond() throws IOException {
    Plan plan = plan();
    double made = 0;
    double run = 0;
    double logged = 0;
    for (int round = 0; round < ROUNDS; round++) {
      made = Math.max(made, making(plan));
      run = Math.max(run, running(plan, new Nowhere()));
      logged = Math.max(logged, logging(plan, folder.resolve("round-" + round + ".sqlite")));
    }
    System.out.printf(
        "vectors/s: made %,.0f; run without log %,.0f (%.3f of made); with log %,.0f (%.2f of without)%n",
        made, run, run / made, logged, logged / run);
  }

  private Plan plan() throws IOException {
    Path card = folder.resolve("card.yaml");
    String text = Files.readString(Path.of("vectors", "sum", "card.yaml"));
    // without its wiring: what is measured is the way of a vector, not the simulation of relays
    Files.writeString(card, text.substring(0, text.indexOf("\nwiring:")));
    Path plan = folder.resolve("plan.yaml");
    Files.writeString(
        plan,
        """
        plan: many
        card: card.yaml
        steps:
          - each: {A B CI: {random: %d, seed: 3}}
        """
            .formatted(VECTORS));
    return PlanFile.read(plan).value();
  }

  private static double making(Plan plan) {
    long beganNs = System.nanoTime();
    VectorSource source = plan.vectors();
    while (source.hasNext()) {
      source.next();
    }
    return VECTORS * 1e9 / (System.nanoTime() - beganNs);
  }

  private static double running(Plan plan, Records records) {
    HookUp hookUp = HookUp.of(plan.card(), FixtureProfile.simulatedBench(25, 13));
    Tally tally = new Tally();
    try (SimulatedBench bench =
            new SimulatedBench(
                plan.card(), hookUp.lineOfDrive(), hookUp.lineOfWatch(), SimSettings.of(1, "01"));
        Session session =
            Session.open(
                bench, hookUp, SessionSettings.standard(10_000), new SplittableRandom(1))) {
      long beganNs = System.nanoTime();
      new Runner(
              session,
              plan,
              records,
              new RunOptions(false),
              new StopSignal(),
              System::nanoTime,
              List.of(tally))
          .run();
      double rate = VECTORS * 1e9 / (System.nanoTime() - beganNs);
      if (tally.count(Verdict.PASS) != VECTORS) {
        throw new AssertionError("only " + tally.count(Verdict.PASS) + " passed");
      }
      return rate;
    }
  }

  private static double logging(Plan plan, Path file) {
    try (BenchLog log = BenchLog.open(file, SumCard.CLOCK);
        RunWriter writer = log.begin(SumCard.start(UnitId.simulated("sum", "01")))) {
      double rate = running(plan, Records.in(writer, plan.card()));
      writer.end(RunEnd.FINISHED, "", SumCard.NOON);
      return rate;
    }
  }
}
