package cardproof.run;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.log.RunEnd;
import cardproof.log.VectorRecord;
import cardproof.log.Verdict;
import cardproof.plan.Plan;
import cardproof.run.BenchRun.Outcome;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/** Cuts the line at any moment, as often as asked, and goes on until the plan is through. */
final class BrokenRuns {
  private final Plan plan;
  private final Path folder;
  private final Outcome whole;

  BrokenRuns(Plan plan, Path folder) throws IOException {
    this.plan = plan;
    this.folder = folder;
    this.whole = BenchRun.of(plan, Files.createTempDirectory(folder, "whole")).go();
    assertThat(whole.ending()).isEqualTo(RunEnding.finished());
  }

  /** Two cuts at random moments, then to the end; all records that hold are those of one run. */
  void cutAtRandom(long seed) throws IOException {
    SplittableRandom random = new SplittableRandom(seed);
    List<VectorRecord> holding = new ArrayList<>();
    long lengthNs = whole.tally().cardUs() * 1_000;
    for (int cuts = 2; cuts >= 0; cuts--) {
      long at = holding.size();
      if (at == plan.vectorCount()) {
        break;
      }
      boolean again = cuts < 2;
      long from = again ? plan.resumeAt(at) : 0;
      assertThat(from).isLessThanOrEqualTo(at);
      long leftNs = cuts == 0 ? Long.MAX_VALUE : random.nextLong(lengthNs);
      RunOptions options = new RunOptions(false, from, again && from > 0 && plan.card().hasState());
      Outcome outcome =
          BenchRun.of(plan, Files.createTempDirectory(folder, "part"))
              .options(options)
              .through(wire -> DeadLine.dyingIn(wire, leftNs))
              .go();
      take(outcome, at, holding);
      if (outcome.ending().end() == RunEnd.LINK_LOST) {
        assertThat(outcome.verdicts()).isSubsetOf(Verdict.PASS, Verdict.UNTESTED);
      }
    }
    assertThat(told(holding)).as("seed %d", seed).isEqualTo(told(whole.records()));
  }

  private static void take(Outcome outcome, long at, List<VectorRecord> holding) {
    for (VectorRecord record : outcome.records()) {
      boolean next = record.number() == holding.size();
      if (record.number() >= at && next && record.verdict() != Verdict.UNTESTED) {
        holding.add(record);
      }
    }
  }

  private static List<String> told(List<VectorRecord> records) {
    return records.stream()
        .map(
            r ->
                String.join(
                    " ",
                    String.valueOf(r.number()),
                    r.step() + "#" + r.indexInStep(),
                    r.verdict().word(),
                    "driven " + r.driven() + r.level(),
                    "wanted " + r.wanted() + " of " + r.cared(),
                    "seen " + r.seen()))
        .toList();
  }
}
