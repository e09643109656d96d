package cardproof.cli;

import cardproof.log.LineName;
import cardproof.log.RunEnd;
import cardproof.log.Verdict;
import cardproof.run.Failure;
import cardproof.run.Tally;
import cardproof.run.WrongBit;
import cardproof.text.Micros;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** A run in words: the first failures in full, the settle times, and the verdict last. */
final class RunReport {
  private static final int FAILURES_SHOWN = 10;
  private static final int LINES_NAMED = 4;

  private final RunResult result;
  private final Screen screen;
  private final PrintWriter out;

  RunReport(RunResult result, Screen screen) {
    this.result = result;
    this.screen = screen;
    this.out = screen.out();
  }

  void print() {
    heading();
    failures();
    new SettlePrinter(screen).print(result.settle());
    new SweepPrinter(screen).print(result.sweeps(), lines(), result.steps());
    summary();
    out.flush();
  }

  private void heading() {
    RunSetup setup = result.setup();
    out.println(screen.strong(setup.plan().title()) + (result.simulated() ? "   SIMULATED" : ""));
    out.printf(
        "card %s, unit %s, on %s%n",
        setup.plan().card().name(),
        setup.unit(),
        setup.onBench()
            ? "the simulated bench, seed "
                + SeedWords.of(setup.seed())
                + (setup.realTime() ? ", in real time" : "")
            : result.board() + " at " + setup.port());
    if (setup.onBench()) {
      out.println(
          result.fromWiring()
              ? "SIMULATED from the card's wiring and its relay types."
              : "SIMULATED times come from the card's behaviour and relay figures, not from its carries.");
    }
    setup.earlier().ifPresent(earlier -> out.println(earlier.words(setup)));
    setup.faultNames().forEach(fault -> out.println("fault put in: " + fault));
    out.println();
  }

  private void failures() {
    List<Failure> failures = result.failures();
    failures.stream().limit(FAILURES_SHOWN).forEach(this::failure);
    long more = result.tally().failed() - Math.min(failures.size(), FAILURES_SHOWN);
    if (more > 0) {
      out.printf("... and %d more vectors that did not pass.%n%n", more);
    }
  }

  private void failure(Failure failure) {
    out.printf(
        "%s  vector %d at %s: %s%n",
        screen.bad(failure.verdict().word().toUpperCase(Locale.ROOT)),
        failure.vector(),
        failure.at(),
        failure.title());
    out.println("  driven  " + failure.drives());
    for (Failure.BusView bus : failure.buses()) {
      out.printf("  %-6s  wanted %s, seen %s%n", bus.bus(), bus.wanted(), bus.seen());
    }
    out.println("  " + failure.why() + (failure.bits().isEmpty() ? "" : ":"));
    for (WrongBit bit : failure.bits()) {
      out.printf("    %s: %s%n", bit.line().bus().describe(bit.line().bit()), bit.what());
    }
    out.println();
  }

  private List<LineName> lines() {
    return result.setup().plan().card().lines().stream().map(RunStarts::lineName).toList();
  }

  private void summary() {
    RunSetup setup = result.setup();
    Tally tally = result.tally();
    new SilencePrinter(screen).print(result.settle());
    SupplyWords.summary(result.supply()).ifPresent(out::println);
    result.missing().forEach(words -> out.println(screen.bad("CURRENT") + ": " + words));
    if (tally.notJudgedBits() > 0) {
      out.printf(
          "%d watched bits were not judged: nothing says what they should be, or a failure made what the"
              + " card holds unknown.%n",
          tally.notJudgedBits());
    }
    out.printf(
        "card time %s, took %s, run %d in %s%n",
        Micros.text(tally.cardUs()),
        Micros.text(result.wallNs() / 1_000),
        result.runId(),
        setup.logFile());
    setup.wave().ifPresent(wave -> out.println("every edge in " + wave.file()));
    setup
        .capture()
        .ifPresent(capture -> out.println("every edge that the fixture saw in " + capture.file()));
    out.println(Plural.of(result.planned(), "vector") + ": " + counts());
    if (result.ending().end() != RunEnd.FINISHED) {
      out.println("Ended early: " + result.ending().why() + ".");
      HowToGoOn.sentence(
              result.ending().end(),
              setup.planFile().toString(),
              result.runId(),
              setup.logFile(),
              setup.port())
          .ifPresent(out::println);
    }
    result.ending().problem().ifPresent(problem -> screen.err().println(problem));
    result.waveProblem().ifPresent(problem -> screen.err().println(problem));
    out.println(verdict());
  }

  private String counts() {
    List<String> parts = new ArrayList<>();
    for (Verdict verdict : Verdict.values()) {
      long count = verdict == Verdict.UNTESTED ? result.untested() : result.tally().count(verdict);
      if (count > 0) {
        parts.add(count + " " + verdict.word());
      }
    }
    return String.join(", ", parts);
  }

  private String verdict() {
    RunSetup setup = result.setup();
    String unit = setup.plan().card().name() + " unit " + setup.unit();
    String bench = result.simulated() ? " (SIMULATED)" : "";
    if (!result.passed()) {
      return screen.bad("NOT PROVED") + ": " + unit + bench;
    }
    if (setup.partial()) {
      return screen.good("PASSED")
          + ": "
          + unit
          + ", the chosen steps only, which proves no card"
          + bench;
    }
    if (!result.missing().isEmpty()) {
      return screen.good("PASSED")
          + ": "
          + unit
          + ", but its current shows "
          + String.join("; ", result.missing())
          + ", which proves no card"
          + bench;
    }
    return result.proved()
        ? screen.good("PROVED") + ": " + unit + " passed every vector of this plan" + bench
        : screen.good("PASSED")
            + ": "
            + unit
            + ", but never was judged "
            + neverJudged()
            + ", which proves no card"
            + bench;
  }

  private String neverJudged() {
    List<String> names =
        result.neverJudged().stream().map(line -> line.bus().describe(line.bit())).toList();
    return names.size() <= LINES_NAMED
        ? String.join(", ", names)
        : String.join(", ", names.subList(0, LINES_NAMED))
            + " and "
            + (names.size() - LINES_NAMED)
            + " more";
  }
}
