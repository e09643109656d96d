package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.LineName;
import cardproof.log.RunDetail;
import cardproof.log.RunEnd;
import cardproof.log.RunSummary;
import cardproof.log.StepTitle;
import cardproof.log.SupplyFinding;
import cardproof.log.VectorRecord;
import cardproof.log.Verdict;
import cardproof.run.SupplyTally;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import cardproof.timing.SettleTable;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalLong;
import java.util.stream.Collectors;

/** A run of the bench log, shown again. */
final class LoggedRun {
  private static final int FAILURES_SHOWN = 10;

  private final BenchLog log;
  private final Path file;
  private final Screen screen;
  private final PrintWriter out;

  LoggedRun(BenchLog log, Path file, Screen screen) {
    this.log = log;
    this.file = file;
    this.screen = screen;
    this.out = screen.out();
  }

  void print(long id) {
    RunDetail detail = log.run(id).orElseThrow(() -> noSuchRun(file, id));
    RunSummary summary = detail.summary();
    out.println(
        screen.strong(summary.planTitle()) + (summary.unit().simulated() ? "   SIMULATED" : ""));
    out.printf(
        "run %d of %s%n  plan %s, started %s on %s%n  board %s, firmware %s%s%n",
        id,
        summary.unit(),
        summary.plan(),
        When.text(summary.started()),
        summary.host(),
        detail.start().fixture().board(),
        detail.start().fixture().firmware(),
        detail.start().seed().isPresent()
            ? ", seed " + SeedWords.of(detail.start().seed().getAsLong())
            : "");
    detail.start().faults().forEach(fault -> out.println("  fault put in: " + fault));
    if (!detail.start().note().isEmpty()) {
      out.println("  note: " + detail.start().note());
    }
    summary
        .continues()
        .ifPresent(
            before ->
                out.printf(
                    "  continues run %d: from vector %d on the records of this run hold%n",
                    before.run(), before.at() + 1));
    out.println();
    failures(detail, id);
    SettleTable settle = SettleTable.of(log, id);
    new SettlePrinter(screen).print(settle);
    new SweepPrinter(screen).print(log.sweeps(id), detail.start().lines(), detail.steps());
    new SilencePrinter(screen).print(settle);
    supply(id);
    out.printf(
        "%d of %d vectors tested: %s%n",
        summary.vectors() - summary.counts().get(Verdict.UNTESTED),
        detail.start().plannedVectors(),
        VerdictCounts.text(summary.counts()));
    out.println(
        summary.end().word()
            + (summary.why().isEmpty() ? "" : ": " + summary.why())
            + (summary.end() == RunEnd.INTERRUPTED
                ? ": the program ended without a word; every vector it had reported is here"
                : ""));
    goingOn(detail, id);
  }

  private void supply(long id) {
    SupplyTally tally = new SupplyTally();
    log.forEachVector(
        id,
        vector ->
            tally.take(
                vector.number(),
                vector.supply().lowestRailMv(),
                vector.supply().highestCurrentMa(),
                vector.verdict() == Verdict.PASS && vector.supply().railMv().orElse(1) == 0));
    SupplyWords.summary(tally).ifPresent(out::println);
    for (SupplyFinding finding : log.supplyFindings(id)) {
      out.printf("current: %s (as of vector %d)%n", finding.words(), finding.vector() + 1);
    }
  }

  private void goingOn(RunDetail detail, long id) {
    OptionalLong next = log.continuedBy(id);
    if (next.isPresent()) {
      out.println("Run " + next.getAsLong() + " continues it.");
      return;
    }
    HowToGoOn.sentence(
            detail.summary().end(),
            detail.summary().plan(),
            id,
            file,
            detail.start().fixture().port())
        .ifPresent(out::println);
  }

  private void failures(RunDetail detail, long id) {
    Map<Integer, StepTitle> steps =
        detail.steps().stream().collect(Collectors.toMap(StepTitle::step, step -> step));
    for (VectorRecord failed : log.failures(id, FAILURES_SHOWN)) {
      if (failed.verdict() == Verdict.UNTESTED) {
        continue; // how the run ended says why; nothing was seen of it
      }
      StepTitle step = steps.get(failed.step());
      out.printf(
          "%s  vector %d at %s: %s%n",
          failed.verdict().word().toUpperCase(Locale.ROOT),
          failed.number() + 1,
          step.origin(failed.indexInStep()),
          step.title());
      out.println(
          "  "
              + failed.why()
              + (failed.verdict() == Verdict.SUPPLY
                  ? ""
                  : wrongLines(failed, detail.start().lines())));
    }
  }

  private static String wrongLines(VectorRecord failed, List<LineName> lines) {
    BitSet wrong = (BitSet) failed.seen().clone();
    wrong.xor(failed.wanted());
    wrong.and(failed.cared());
    List<String> words = new ArrayList<>();
    wrong.stream()
        .forEach(
            i ->
                words.add(
                    lines.get(i).label()
                        + " ("
                        + (LineLabels.isPrinted(lines.get(i))
                            ? LineLabels.place(lines.get(i)) + ", "
                            : "")
                        + lines.get(i).pin()
                        + ") seen "
                        + (failed.seen().get(i) ? 1 : 0)));
    return words.isEmpty() ? "" : ": " + String.join(", ", words);
  }

  static RefusedException noSuchRun(Path file, long id) {
    return new RefusedException(
        new Problem(
            file.toString(),
            "there is no run " + id,
            "the number of a run in this log",
            "'cardproof log' lists them, with --simulated those of the simulated bench"));
  }
}
