package cardproof.run;

import cardproof.card.Line;
import cardproof.fixture.Observation;
import cardproof.fixture.Session;
import cardproof.link.Status;
import cardproof.plan.Vector;
import cardproof.text.Micros;
import java.util.Deque;
import java.util.Optional;

/**
 * How a run ends whose fixture dropped the drives by itself: which vector it was, and its verdict.
 */
final class Trips {
  private final Session session;
  private final Results results;
  private final Deque<Vector> inFlight;
  private Observation seen;

  /**
   * @param inFlight vectors that have no verdict yet, in order
   */
  Trips(Session session, Results results, Deque<Vector> inFlight) {
    this.session = session;
    this.results = results;
    this.inFlight = inFlight;
  }

  /** Takes what was seen of the vector in which it happened. */
  void saw(Observation tripped) {
    seen = tripped;
  }

  /** The ending with the vector named that it belongs to. */
  RunEnding named(RunEnding ending, Status status) {
    return switch (status.cause()) {
      case SUPPLY -> supply(ending);
      case CHATTER -> chatter(ending, session.chattering(status));
      default -> heldTooLong(ending);
    };
  }

  private RunEnding chatter(RunEnding ending, Optional<Line> line) {
    Judge judge = results.judge();
    if (seen != null) {
      results.takeTripped(inFlight.remove(), seen, judge.chatter(seen, line));
      return inLast(ending, " " + Micros.text(seen.durationUs()) + " into ");
    }
    Optional<Judged> last = results.last();
    if (last.isEmpty()) {
      return ending;
    }
    results.supersedeLast(judge.chatter(last.get().observation(), line), true);
    return inLast(ending, " after ");
  }

  /** That a pattern was held too long says nothing of the card: its vector has no verdict. */
  private RunEnding heldTooLong(RunEnding ending) {
    if (seen != null && !inFlight.isEmpty()) {
      return Endings.named(ending, " in ", inFlight.peek());
    }
    return inLast(ending, " after ");
  }

  /** The vector in which it tripped has failed, and is named; one that was over by then stands. */
  private RunEnding supply(RunEnding ending) {
    if (seen != null) {
      results.takeTripped(inFlight.remove(), seen, SupplyJudge.tripped(seen.supply()));
      return inLast(ending, " in ");
    }
    return inLast(ending, " after ");
  }

  private RunEnding inLast(RunEnding ending, String how) {
    return results.last().map(judged -> Endings.named(ending, how, judged.vector())).orElse(ending);
  }
}
