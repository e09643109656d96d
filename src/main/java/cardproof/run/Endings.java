package cardproof.run;

import cardproof.link.DropCause;
import cardproof.link.FixtureState;
import cardproof.link.LinkException;
import cardproof.link.Status;
import cardproof.log.RunEnd;
import cardproof.plan.Vector;
import cardproof.text.Problem;
import java.util.Optional;

/** What it means for a run that the fixture dropped its drives, and what to tell the user. */
final class Endings {
  private Endings() {}

  /** Link trouble; a fixture that had tripped by itself before it was armed has tripped. */
  static RunEnding lost(LinkException lost, int boot, String port) {
    return lost.status()
        .filter(status -> status.state() == FixtureState.TRIPPED)
        .map(status -> dropped(status, boot, port))
        .orElseGet(
            () ->
                new RunEnding(
                    RunEnd.LINK_LOST, lost.problem().found(), Optional.of(lost.problem())));
  }

  static RunEnding dropped(Status status, int boot, String port) {
    if (status.boot() != boot) {
      return ending(
          RunEnd.LINK_LOST,
          port,
          "the fixture restarted in the middle of the run",
          "Look for a supply that dips or a loose USB plug; what the card held is no longer known,"
              + " so run the plan again");
    }
    if (status.cause() == DropCause.OPEN) {
      return ending(
          RunEnd.LINK_LOST,
          port,
          "another program has taken the fixture and dropped its drives",
          "See which program uses this port, then run the plan again");
    }
    if (status.state() != FixtureState.TRIPPED) {
      return ending(
          RunEnd.LINK_LOST,
          port,
          "the fixture dropped its drives because it heard nothing from this computer for too long",
          "Keep the computer from sleeping during a run, then run the plan again");
    }
    return switch (status.cause()) {
      case CHATTER ->
          ending(
              RunEnd.TRIPPED,
              port,
              "a line went on changing, and the fixture dropped every drive",
              "Look for an output that feeds its own input, then for a relay that cannot hold"
                  + " (weak supply, broken diode)");
      case HOLD_LIMIT ->
          ending(
              RunEnd.TRIPPED,
              port,
              "a pattern was held longer than the card allows, and the fixture dropped every drive",
              "Raise limits.hold in the card file if its coils are rated for it");
      default ->
          ending(
              RunEnd.TRIPPED,
              port,
              "the supply tripped, and the fixture dropped every drive",
              "Switch the supply off and look for a short: a lead that feels warm, a solder bridge,"
                  + " a diode the wrong way round");
    };
  }

  /** The same with the vector in which it happened. */
  static RunEnding named(RunEnding ending, String when, Vector vector) {
    String where = when + "vector " + (vector.number() + 1) + " at " + vector.origin();
    return new RunEnding(
        ending.end(),
        ending.why() + where,
        ending.problem().map(p -> new Problem(p.where(), p.found() + where, p.wanted(), p.next())));
  }

  private static RunEnding ending(RunEnd end, String port, String found, String next) {
    return new RunEnding(end, found, Optional.of(new Problem(port, found, "", next)));
  }
}
