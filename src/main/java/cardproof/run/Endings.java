package cardproof.run;

import cardproof.fixture.Session;
import cardproof.link.DropCause;
import cardproof.link.FixtureState;
import cardproof.link.HelloReply;
import cardproof.link.LinkException;
import cardproof.link.Status;
import cardproof.log.RunEnd;
import cardproof.plan.Vector;
import cardproof.text.Problem;
import java.util.Locale;
import java.util.Optional;

/** What it means for a run that the fixture dropped its drives, and what to tell the user. */
final class Endings {
  private Endings() {}

  /**
   * What is known beside the fixture's word.
   *
   * @param boot that the session was opened with
   * @param restarted what it said of itself after a reset
   * @param absenceMs how long this program was stopped, or its computer asleep; 0 for not at all
   */
  record About(String port, int boot, Optional<HelloReply> restarted, long absenceMs) {
    static About of(Session session, long absenceMs) {
      return new About(session.name(), session.hello().boot(), session.restarted(), absenceMs);
    }
  }

  /** Link trouble; a fixture that tripped or restarted before it was armed has done just that. */
  static RunEnding lost(LinkException lost, About about) {
    return lost.status()
        .filter(status -> status.state() == FixtureState.TRIPPED || status.boot() != about.boot())
        .map(status -> dropped(status, about))
        .orElseGet(() -> lost(lost.problem(), about));
  }

  private static RunEnding lost(Problem problem, About about) {
    String found = problem.found() + after(about);
    return new RunEnding(
        RunEnd.LINK_LOST,
        found,
        Optional.of(new Problem(problem.where(), found, problem.wanted(), problem.next())),
        true);
  }

  static RunEnding dropped(Status status, About about) {
    String port = about.port();
    if (status.boot() != about.boot()) {
      ResetWords reset = ResetWords.of(about.restarted().map(HelloReply::resetCause).orElse(0));
      return lost(
          port,
          "the fixture restarted in the middle of the run (" + reset.cause() + ")",
          reset.next() + "; what the card keeps is no longer known");
    }
    if (status.cause() == DropCause.OPEN) {
      return tripped(
          RunEnd.LINK_LOST,
          port,
          "another program has taken the fixture and dropped its drives",
          "See which program uses this port, then run the plan again");
    }
    if (status.state() != FixtureState.TRIPPED) {
      return silence(about);
    }
    return switch (status.cause()) {
      case CHATTER ->
          tripped(
              RunEnd.TRIPPED,
              port,
              "a line went on changing, and the fixture dropped every drive",
              "Look for an output that feeds its own input, then for a relay that cannot hold"
                  + " (weak supply, broken diode)");
      case HOLD_LIMIT ->
          tripped(
              RunEnd.TRIPPED,
              port,
              "a pattern was held longer than the card allows, and the fixture dropped every drive",
              "Feel whether a coil is hot. Where all are rated for it raise limits.hold in the card"
                  + " file; else give the step a shorter watch, or drive less in it");
      default ->
          tripped(
              RunEnd.TRIPPED,
              port,
              "the supply tripped, and the fixture dropped every drive",
              "Switch the supply off and look for a short: a lead that feels warm, a solder bridge,"
                  + " a diode the wrong way round");
    };
  }

  private static RunEnding silence(About about) {
    String found =
        "the fixture dropped its drives because it heard nothing from this computer for too long";
    return about.absenceMs() > 0
        ? lost(
            about.port(),
            found + after(about),
            "Keep the computer from sleeping, and the program from being stopped, during a run")
        : lost(
            about.port(),
            found + ", though this program was there all the time",
            "What is sent does not arrive: check the cable and the ground lead, and what else this"
                + " computer is busy with");
  }

  private static String after(About about) {
    return about.absenceMs() == 0
        ? ""
        : String.format(
            Locale.ROOT,
            ": for %.1f s this program did not go on (the computer slept, the program was stopped, or"
                + " its disk hung)",
            about.absenceMs() / 1e3);
  }

  /** The same with the vector in which it happened. */
  static RunEnding named(RunEnding ending, String when, Vector vector) {
    String title = vector.step().title();
    String where =
        when
            + "vector "
            + (vector.number() + 1)
            + " at "
            + vector.origin()
            + (title.isEmpty() ? "" : " (" + title + ")");
    return new RunEnding(
        ending.end(),
        ending.why() + where,
        ending.problem().map(p -> new Problem(p.where(), p.found() + where, p.wanted(), p.next())),
        ending.mayReturn());
  }

  private static RunEnding lost(String port, String found, String next) {
    return new RunEnding(
        RunEnd.LINK_LOST, found, Optional.of(new Problem(port, found, "", next)), true);
  }

  private static RunEnding tripped(RunEnd end, String port, String found, String next) {
    return new RunEnding(end, found, Optional.of(new Problem(port, found, "", next)));
  }
}
