package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.Merged;
import cardproof.log.Rework;
import cardproof.log.RunFilter;
import cardproof.log.UnitId;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Supplier;

/** What the log command writes into a bench log, or takes out of it. */
final class LogChanges {
  private final Path file;
  private final Screen screen;
  private final Supplier<Optional<Answers>> answers;
  private final Clock clock = Clock.systemUTC();

  LogChanges(Path file, Screen screen, Supplier<Optional<Answers>> answers) {
    this.file = file;
    this.screen = screen;
    this.answers = answers;
  }

  /** Notes a repair of a unit that has been run. */
  int rework(UnitId id, String note, List<String> pictures) {
    Instant now = clock.instant();
    try (BenchLog log = BenchLog.open(file, clock)) {
      if (log.runs(RunFilter.of(id).limit(1)).isEmpty()) {
        throw noRunOf(id, log);
      }
      log.addRework(new Rework(id, note, now, pictures));
    }
    screen.out().println("Noted for " + id + " at " + When.text(now) + ".");
    for (String picture : pictures) {
      if (!Files.exists(Path.of(picture))) {
        screen
            .err()
            .println("warning: there is no file " + picture + " here; its name is kept as it is");
      }
    }
    return ExitCode.PASSED;
  }

  private RefusedException noRunOf(UnitId id, BenchLog log) {
    UnitId other = new UnitId(id.card(), id.unit(), !id.simulated());
    return new RefusedException(
        new Problem(
            file.toString(),
            "no run of " + id + " is in this log",
            "a unit that has been run here",
            log.runs(RunFilter.of(other).limit(1)).isEmpty()
                ? "'cardproof log' lists them, with --simulated those of the simulated bench"
                : id.simulated()
                    ? "Leave --simulated out for the real unit of that name"
                    : "Add --simulated for the simulated unit of that name"));
  }

  /** Takes what another log has and this one has not. */
  int merge(Path other) {
    Path from = BenchLogs.in(other);
    if (isSame(from)) {
      throw new RefusedException(
          new Problem(from.toString(), "this is the log itself", "another bench log", ""));
    }
    try (BenchLog log = BenchLog.open(file, clock)) {
      Merged merged = log.merge(from);
      screen
          .out()
          .printf(
              "%s taken, %s here already; %s taken, %d here already.%n",
              Plural.of(merged.runs(), "run"),
              merged.knownRuns() == 1 ? "1 was" : merged.knownRuns() + " were",
              Plural.of(merged.reworks(), "rework note"),
              merged.knownReworks());
      if (merged.unfinished() > 0) {
        screen
            .out()
            .println(
                Plural.of(merged.unfinished(), "run")
                    + " still being written there, or broken off on another computer, stayed there.");
      }
    }
    return ExitCode.PASSED;
  }

  private boolean isSame(Path other) {
    try {
      return Files.exists(file) && Files.exists(other) && Files.isSameFile(file, other);
    } catch (IOException e) {
      throw new UncheckedIOException(file + " was there a moment ago", e);
    }
  }

  /** Never without a yes from somebody at a terminal. */
  int forget(Instant before) {
    try (BenchLog log = BenchLog.open(file, clock)) {
      List<Long> runs = log.forgettable(before);
      if (runs.isEmpty()) {
        screen.out().println("No run started before " + When.text(before) + " and can go.");
        return ExitCode.PASSED;
      }
      long units =
          runs.stream().map(run -> log.run(run).orElseThrow().summary().unit()).distinct().count();
      String question =
          String.format(
              Locale.ROOT,
              "%s of %s, started before %s, with every vector: forget for good? (yes/no) ",
              Plural.of(runs.size(), "run"),
              Plural.of(units, "unit"),
              When.text(before));
      Optional<String> answer = answers.get().flatMap(who -> who.ask(question));
      if (answer.isEmpty()) {
        throw new RefusedException(
            new Problem(
                file.toString(),
                Plural.of(runs.size(), "run") + " would go, and nobody is there to say yes",
                "a terminal to ask at",
                "Nothing was forgotten"));
      }
      if (!answer.get().strip().toLowerCase(Locale.ROOT).equals("yes")) {
        screen.out().println("Nothing was forgotten.");
        return ExitCode.STOPPED;
      }
      log.forget(runs);
      screen.out().println(Plural.of(runs.size(), "run") + " forgotten.");
    }
    return ExitCode.PASSED;
  }
}
