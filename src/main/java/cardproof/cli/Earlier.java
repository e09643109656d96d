package cardproof.cli;

import cardproof.card.Line;
import cardproof.link.HelloReply;
import cardproof.log.BenchLog;
import cardproof.log.Continues;
import cardproof.log.RunAsked;
import cardproof.log.RunDetail;
import cardproof.log.RunEnd;
import cardproof.log.RunStart;
import cardproof.log.VectorRecord;
import cardproof.log.Verdict;
import cardproof.plan.Plan;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.BitSet;
import java.util.Map;
import java.util.OptionalLong;

/**
 * A run that ended early and is to be continued, with what it and those before it have shown.
 *
 * @param at number of the first vector that has no verdict yet
 * @param from number of the first vector to apply
 * @param failed vectors below {@code at} that did not pass
 * @param cared lines judged in some vector below {@code at}
 */
record Earlier(
    Path file,
    long run,
    RunStart start,
    RunAsked asked,
    long at,
    long from,
    long failed,
    BitSet cared) {

  /**
   * @throws RefusedException where that run is none that can be continued
   */
  static Earlier read(Path file, long run) {
    try (BenchLog log = BenchLog.openForReading(file)) {
      RunDetail detail =
          log.run(run)
              .orElseThrow(
                  () ->
                      refused(
                          run,
                          "it is not in " + file,
                          "'cardproof log'"
                              + " lists the runs, with --simulated those of the simulated bench"));
      checkEnd(log, detail);
      Seen seen = new Seen();
      log.forEachVectorOfAll(run, seen::take);
      return new Earlier(
          file, run, detail.start(), log.asked(run), seen.at, seen.at, seen.failed, seen.cared);
    }
  }

  /** Takes vectors up to the first that was not answered. */
  private static final class Seen {
    private final BitSet cared = new BitSet();
    private long at;
    private long failed;

    void take(VectorRecord vector) {
      if (vector.number() != at || vector.verdict() == Verdict.UNTESTED) {
        return;
      }
      at++;
      if (vector.verdict() != Verdict.MEASURED) {
        cared.or(vector.cared());
      }
      if (vector.verdict().isFailure()) {
        failed++;
      }
    }
  }

  private static void checkEnd(BenchLog log, RunDetail detail) {
    long run = detail.summary().id();
    RunEnd end = detail.summary().end();
    if (end == RunEnd.RUNNING) {
      throw refused(run, "it is still running", "Wait for its end, or stop it first");
    }
    if (end == RunEnd.TRIPPED) {
      throw refused(
          run,
          "it ended in a trip (" + detail.summary().why() + ")",
          "Find what tripped, then run the whole plan again");
    }
    if (!HowToGoOn.can(end)) {
      throw refused(run, "it went through to its end", "Run the plan anew, without --resume");
    }
    OptionalLong next = log.continuedBy(run);
    if (next.isPresent()) {
      throw refused(
          run,
          "run " + next.getAsLong() + " has continued it already",
          "Continue that one, where it ended early: --resume " + next.getAsLong());
    }
    Instant started = detail.summary().started();
    log.reworks(detail.summary().unit()).stream()
        .filter(rework -> rework.at().isAfter(started))
        .findFirst()
        .ifPresent(
            rework -> {
              throw refused(
                  run,
                  "the unit was reworked since ('" + rework.note() + "')",
                  "A repair may change what was proved before it: run the whole plan again");
            });
  }

  /**
   * The same with the vector to begin with. Where every vector has a verdict, the last one is
   * applied again: it is final only with the rest after it, which is what the run did not live to
   * see. A failure of it before stays counted.
   */
  Earlier from(Plan plan) {
    long first = Math.min(at, plan.vectorCount() - 1);
    return new Earlier(file, run, start, asked, first, plan.resumeAt(first), failed, cared);
  }

  Continues continues() {
    return new Continues(run, at);
  }

  /** Whether a line was judged in some vector that stands. */
  boolean judged(Line line) {
    return cared.get(line.index());
  }

  /**
   * @throws RefusedException when an option says other than what the run was begun with
   */
  void same(String option, Object now, Object then) {
    if (!now.equals(then)) {
      throw refused(
          run,
          option + " is " + now + ", and it was begun with " + then,
          "Leave " + option + " out: it is taken from the run");
    }
  }

  /**
   * @param now SHA-256 by file name
   * @throws RefusedException when a file is not what it was; names may differ, as when the plan is
   *     named from another folder
   */
  void checkFiles(Map<String, String> now) {
    for (Map.Entry<String, String> file : now.entrySet()) {
      if (!start.fileHashes().containsValue(file.getValue())) {
        throw refused(
            run,
            file.getKey() + " is not what it was when the run was begun",
            "Put the file back as it was, or run the whole plan again: vectors proved with"
                + " other files prove nothing here");
      }
    }
    start
        .fileHashes()
        .forEach(
            (name, hash) -> {
              if (!now.containsValue(hash)) {
                throw refused(
                    run,
                    "it was begun with " + name + " as well, which is not read now",
                    "Give the same plan and fixture profile as then");
              }
            });
  }

  /**
   * @throws RefusedException when another board answers than the one the run was begun on
   */
  void checkBoard(RunSetup setup, HelloReply hello) {
    boolean simulated = RunStarts.simulated(setup, hello);
    if (simulated != start.unit().simulated()) {
      throw refused(
          run,
          simulated ? "it was of a real card, and this is a simulated one" : "it was simulated",
          "Give the same --port and --fixture as then");
    }
    if (!isBoard(hello)) {
      throw refused(
          run,
          String.format(
              "the board is '%s' with id %x, and it was begun on '%s' with id %x",
              hello.board(), hello.boardId(), start.fixture().board(), start.fixture().boardId()),
          "Plug in the same fixture, or run the whole plan again");
    }
  }

  /** Whether it is the board that the run was begun on, as far as boards tell. */
  boolean isBoard(HelloReply hello) {
    long then = start.fixture().boardId();
    return hello.board().equals(start.fixture().board())
        && (then == 0 || hello.boardId() == 0 || hello.boardId() == then);
  }

  String words(RunSetup setup) {
    String text =
        "continues run " + run + " at vector " + (at + 1) + " of " + setup.check().vectors();
    if (from < at) {
      text += "; what the card keeps is established anew by vectors " + (from + 1) + " to " + at;
    }
    return failed == 0 ? text : text + "; of those before, " + failed + " did not pass";
  }

  private static RefusedException refused(long run, String found, String next) {
    return new RefusedException(new Problem("--resume " + run, found, "", next));
  }
}
