package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.MovedLine;
import cardproof.log.RunEnd;
import cardproof.log.RunStart;
import cardproof.log.RunWriter;
import cardproof.log.StepTitle;
import cardproof.log.SupplyRecord;
import cardproof.log.VectorRecord;
import cardproof.log.Verdict;
import java.nio.file.Path;
import java.time.Clock;
import java.util.BitSet;
import java.util.List;

/** A run in which a line moved after its vector had been judged. */
final class VoidRun {
  private VoidRun() {}

  /** Adds one that was begun as the first of the log was. */
  static void add(Path file) {
    Clock clock = Clock.systemUTC();
    try (BenchLog log = BenchLog.open(file, clock)) {
      RunStart start = log.run(1).orElseThrow().start();
      int line =
          start.lines().stream().filter(each -> each.watched()).findFirst().orElseThrow().line();
      try (RunWriter writer = log.begin(again(start, clock))) {
        writer.step(new StepTitle(0, "plan.yaml", 1, "one", ""));
        writer.append(record(new MovedLine(line, true, 9_000, 9_000, 1, 1, false, false)));
        writer.supersede(
            record(new MovedLine(line, false, 9_000, 90_000, 2, 2, false, false)), "moved");
        writer.end(RunEnd.FINISHED, "", clock.instant());
      }
    }
  }

  private static RunStart again(RunStart first, Clock clock) {
    return new RunStart(
        first.unit(),
        first.cardTitle(),
        first.plan(),
        first.planTitle(),
        1,
        first.partial(),
        first.seed(),
        first.fixture(),
        first.note(),
        first.faults(),
        first.fileHashes(),
        first.limitsJson(),
        first.hookupJson(),
        first.lines(),
        clock.instant());
  }

  private static VectorRecord record(MovedLine moved) {
    BitSet none = new BitSet();
    return new VectorRecord(
        0,
        0,
        0,
        Verdict.PASS,
        "",
        0,
        100_000,
        0,
        65_000,
        none,
        none,
        none,
        none,
        none,
        none,
        List.of(moved),
        SupplyRecord.NOTHING);
  }
}
