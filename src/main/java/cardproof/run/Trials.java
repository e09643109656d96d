package cardproof.run;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.fixture.MovedBit;
import cardproof.fixture.Observation;
import cardproof.log.Verdict;
import cardproof.plan.Trial;
import cardproof.plan.Vector;
import cardproof.text.Micros;
import java.util.ArrayList;
import java.util.List;

/** What an observation says about a trial of a sweep. */
final class Trials {
  private Trials() {}

  /** A trial that is not judged: which lines took the data, and which did not. */
  static Judgement measured(Vector vector, Observation seen, Card card) {
    Trial trial = vector.trial().orElseThrow();
    long[] moving = moving(vector, seen);
    List<WrongBit> not = new ArrayList<>();
    for (Line line : card.lines()) {
      int b = line.busIndex();
      boolean missed = ((seen.seen()[b] ^ trial.target()[b] | moving[b]) >>> line.bit() & 1) != 0;
      if ((trial.lines()[b] >>> line.bit() & 1) != 0 && missed) {
        not.add(new WrongBit(line, "not taken"));
      }
    }
    String time = Micros.signed(trial.timeUs());
    return new Judgement(
        Verdict.MEASURED,
        not.isEmpty() ? time + ": taken" : time + ": not taken by " + names(not),
        not);
  }

  private static String names(List<WrongBit> bits) {
    return String.join(", ", bits.stream().map(bit -> bit.line().name()).toList());
  }

  /** Lines that were still moving when watching ended, by bus index. */
  static long[] moving(Vector vector, Observation seen) {
    long[] moving = new long[seen.seen().length];
    for (MovedBit bit : seen.moved()) {
      if (!seen.isConfirmed(bit, vector.timing().quietUs())) {
        moving[bit.line().busIndex()] |= 1L << bit.line().bit();
      }
    }
    return moving;
  }
}
