package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.RunEnd;
import cardproof.log.RunSummary;
import cardproof.run.StopSignal;
import cardproof.timing.intermittent.FailureHistory;
import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;

/**
 * One plan run again and again, to catch what fails now and then. Each is a run of its own in the
 * log; on the simulated bench each is a session of its own.
 */
final class RepeatedRun {
  private final RunSetup setup;
  private final Screen screen;
  private final StopSignal stop;
  private final int times;

  RepeatedRun(RunSetup setup, Screen screen, StopSignal stop, int times) {
    this.setup = setup;
    this.screen = screen;
    this.stop = stop;
    this.times = times;
  }

  /** Runs until all are done or one of them did not come to its end; returns the exit code. */
  int run(boolean json) {
    if (!json) {
      heading();
    }
    List<Long> runs = new ArrayList<>();
    int exit = ExitCode.PASSED;
    PlanRun first = new PlanRun(setup, screen, stop);
    if (!first.ready()) {
      return ExitCode.STOPPED;
    }
    for (int i = 0; i < times && stop.reason().isEmpty(); i++) {
      PlanRun each = i == 0 ? first : first.again(setup.again(i));
      RunResult result = each.recordedToItsEnd();
      runs.add(result.runId());
      exit = Math.max(exit, each.exitCode(result));
      if (!json) {
        line(i + 1, result);
      }
      if (!mayGoOn(result)) {
        result.ending().problem().ifPresent(screen.err()::println);
        exit = each.exitCode(result);
        break;
      }
    }
    if (stop.reason().isPresent() && exit <= ExitCode.FAILED) {
      exit = ExitCode.STOPPED;
    }
    summary(runs, json);
    return exit;
  }

  /** Only after a run that came to its end, or ended at a failure because that was asked for. */
  private boolean mayGoOn(RunResult result) {
    RunEnd end = result.ending().end();
    return end == RunEnd.FINISHED
        || end == RunEnd.STOPPED && setup.stopOnFail() && stop.reason().isEmpty();
  }

  private void heading() {
    screen
        .out()
        .printf(
            "%s%s%ncard %s, unit %s, %d times%n",
            screen.strong(setup.plan().title()),
            setup.onBench() ? "   SIMULATED" : "",
            setup.plan().card().name(),
            setup.unit(),
            times);
    setup.faultNames().forEach(fault -> screen.out().println("fault put in: " + fault));
    screen.out().println();
  }

  private void line(int number, RunResult result) {
    screen
        .out()
        .printf(
            "%3d of %d  run %d  %s%s%n",
            number,
            times,
            result.runId(),
            result.passed()
                ? screen.good("passed") + ", " + Plural.of(result.planned(), "vector")
                : screen.bad(result.tally().failed() + " did not pass"),
            result.ending().end() == RunEnd.FINISHED
                ? ""
                : "; " + result.ending().end().word() + ": " + result.ending().why());
    screen.out().flush();
  }

  private void summary(List<Long> runs, boolean json) {
    try (BenchLog log = BenchLog.openForReading(setup.logFile())) {
      List<RunSummary> summaries =
          runs.stream().map(run -> log.run(run).orElseThrow().summary()).toList();
      FailureHistory history = FailureHistory.of(log, summaries);
      if (json) {
        screen.out().println(json(runs, history));
      } else {
        screen.out().println();
        IntermittentWords.of(history, log).forEach(screen.out()::println);
      }
    }
    screen.out().flush();
  }

  private String json(List<Long> runs, FailureHistory history) {
    StringWriter text = new StringWriter();
    try (JsonWriter json = new JsonWriter(text)) {
      json.setIndent("  ");
      json.beginObject();
      json.name("runs").beginArray();
      for (long run : runs) {
        json.value(run);
      }
      json.endArray();
      json.name("judged").value(history.judged());
      json.name("failed").value(history.failed());
      json.name("mostOfVectors").value(history.judged() == 0 ? null : history.mostOfVectors());
      json.name("powerCycles").value(history.sessions());
      json.name("failedPowerCycles").value(history.failedSessions());
      json.name("bunchedByChance").value(history.bunched());
      json.name("vectors").beginArray();
      for (var vector : history.vectors()) {
        json.beginObject();
        json.name("vector").value(vector.vector() + 1);
        json.name("failed").value(vector.failed());
        json.name("judged").value(vector.judged());
        json.name("lastInRun").value(vector.run());
        json.endObject();
      }
      json.endArray();
      json.name("log").value(setup.logFile().toString());
      json.endObject();
    } catch (IOException impossible) {
      throw new UncheckedIOException("writing to memory", impossible);
    }
    return text.toString();
  }
}
