package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.Rework;
import cardproof.log.RunFilter;
import cardproof.log.RunSummary;
import cardproof.log.Verdict;
import java.io.PrintWriter;
import java.util.ArrayDeque;
import java.util.Comparator;
import java.util.Deque;
import java.util.List;
import java.util.stream.Collectors;

/** The runs of a bench log, newest first, with the rework notes of their units where they fell. */
final class LogListing {
  private final BenchLog log;
  private final Screen screen;
  private final PrintWriter out;

  LogListing(BenchLog log, Screen screen) {
    this.log = log;
    this.screen = screen;
    this.out = screen.out();
  }

  void print(RunFilter filter, boolean simulated) {
    List<RunSummary> runs = log.runs(filter);
    if (runs.isEmpty()) {
      out.println(
          "No runs of "
              + (simulated ? "simulated" : "real")
              + " units here."
              + (simulated ? "" : " With --simulated: those of the simulated bench."));
      return;
    }
    if (simulated) {
      out.println("SIMULATED units");
    }
    out.println(
        screen.strong(
            String.format(
                "%5s  %-19s  %-16s %-12s %-18s %s",
                "run", "started", "unit", "ended", "vectors", "verdicts")));
    Deque<Rework> notes = notes(runs);
    for (RunSummary run : runs) {
      while (!notes.isEmpty() && notes.peek().at().isAfter(run.started())) {
        print(notes.pop());
      }
      print(run);
    }
    notes.forEach(this::print);
  }

  /** Of all units listed, newest first. */
  private Deque<Rework> notes(List<RunSummary> runs) {
    return runs.stream()
        .map(RunSummary::unit)
        .distinct()
        .flatMap(unit -> log.reworks(unit).stream())
        .sorted(Comparator.comparing(Rework::at).reversed())
        .collect(Collectors.toCollection(ArrayDeque::new));
  }

  private void print(Rework note) {
    out.printf(
        "       %s  %-16s rework: %s%s%n",
        When.text(note.at()),
        note.unit().card() + " " + note.unit().unit(),
        note.note(),
        note.pictures().isEmpty() ? "" : "  [" + String.join(", ", note.pictures()) + "]");
  }

  private void print(RunSummary run) {
    long judged = run.vectors() - run.counts().get(Verdict.UNTESTED);
    out.printf(
        "%5d  %-19s  %-16s %-12s %-18s %s%n",
        run.id(),
        When.text(run.started()),
        run.unit().card() + " " + run.unit().unit(),
        run.end().word(),
        judged == run.planned() ? String.valueOf(judged) : judged + " of " + run.planned(),
        VerdictCounts.text(run.counts()) + (run.partial() ? ", chosen steps only" : ""));
  }
}
