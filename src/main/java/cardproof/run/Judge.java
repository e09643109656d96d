package cardproof.run;

import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.fixture.MovedBit;
import cardproof.fixture.Observation;
import cardproof.log.Verdict;
import cardproof.plan.Power;
import cardproof.plan.Vector;
import cardproof.text.Micros;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;

/**
 * Decides what an observation says about a vector. Where several verdicts hold the gravest is
 * given: chatter, supply, unsettled, wrong, late, disturbed. Follows whether the supply is on, so
 * it sees every vector in order.
 */
final class Judge {
  /** Moves after which a line that is still moving at the end of watching is taken to chatter. */
  private static final int CHATTER_MOVES_AT_END = 4;

  private final Card card;
  private final SupplyJudge supplyJudge;
  private boolean powered = true;

  Judge(Card card) {
    this.card = card;
    this.supplyJudge = new SupplyJudge(card);
  }

  /**
   * @param vector with what could be expected once all vectors before it had been judged
   */
  Judgement judge(Vector vector, Observation seen) {
    powered = vector.step().power().map(Power::on).orElse(powered);
    if (seen.stopped()) {
      return Judgement.untested("cut short");
    }
    Optional<Judgement> supply =
        powered ? supplyJudge.judge(seen.supply()) : supplyJudge.judgeOff(seen.supply());
    if (supply.isPresent()) {
      return supply.get();
    }
    if (vector.measured()) {
      return Trials.measured(vector, seen, card);
    }
    if (!seen.quiet()) {
      return moving(vector, seen);
    }
    if (seen.dwell().isPresent()) {
      return atDwell(vector, seen, seen.dwell().get());
    }
    List<WrongBit> wrong = wrongBits(vector, seen.seen());
    if (!wrong.isEmpty()) {
      return new Judgement(Verdict.WRONG, "settled, but not as wanted", wrong);
    }
    List<WrongBit> late =
        moved(seen, bit -> isLate(vector, bit), "last moved at %s, limit ", vector);
    if (!late.isEmpty()) {
      return new Judgement(Verdict.LATE, "right in the end, but after the limit", late);
    }
    List<WrongBit> disturbed = disturbedBits(vector, seen);
    if (!disturbed.isEmpty()) {
      return new Judgement(
          Verdict.DISTURBED, "right, but a line that must hold still moved", disturbed);
    }
    return Judgement.pass();
  }

  /**
   * With a dwell the levels then are what counts, but not those of a line that was just changing:
   * another time it would be read the other way.
   */
  private Judgement atDwell(Vector vector, Observation seen, Observation.DwellSample sample) {
    String when = Micros.text(vector.step().dwellUs());
    List<WrongBit> unstable = new ArrayList<>();
    for (Line line : card.lines()) {
      if (isSet(vector.care(), line) && isSet(sample.unstable(), line)) {
        unstable.add(new WrongBit(line, "changed within 1 ms of the dwell of " + when));
      }
    }
    if (!unstable.isEmpty()) {
      return new Judgement(Verdict.UNSETTLED, "unstable at the dwell of " + when, unstable);
    }
    List<WrongBit> wrong = wrongBits(vector, sample.seen());
    if (!wrong.isEmpty()) {
      return wrongBits(vector, seen.seen()).isEmpty()
          ? new Judgement(Verdict.LATE, "right in the end, but not at the dwell of " + when, wrong)
          : new Judgement(Verdict.WRONG, "not as wanted at the dwell of " + when, wrong);
    }
    List<WrongBit> disturbed = disturbedBits(vector, seen);
    return disturbed.isEmpty()
        ? Judgement.pass()
        : new Judgement(
            Verdict.DISTURBED, "right, but a line that must hold still moved", disturbed);
  }

  /**
   * The fixture dropped its drives because a line chattered, in this step or in the rest after it.
   *
   * @param named by the fixture; empty where it names none
   */
  Judgement chatter(Observation seen, Optional<Line> named) {
    List<WrongBit> bits = new ArrayList<>();
    for (MovedBit bit : seen.moved()) {
      if (bit.moves() >= CHATTER_MOVES_AT_END || named.filter(bit.line()::equals).isPresent()) {
        String counts = bit.moves() + " moves, " + bit.changes() + " changes in ";
        bits.add(new WrongBit(bit.line(), counts + Micros.text(seen.durationUs())));
      }
    }
    if (named.isPresent() && bits.stream().noneMatch(b -> b.line().equals(named.get()))) {
      bits.add(new WrongBit(named.get(), "went on changing after the step"));
    }
    String who = named.map(line -> line.bus().describe(line.bit())).orElse("a line");
    return new Judgement(
        Verdict.CHATTER,
        who
            + " goes on changing"
            + supplyJudge.trouble(seen.supply()).map(words -> " while " + words).orElse("")
            + "; the fixture dropped every drive",
        bits);
  }

  /** A line moved after the vector had ended and before the next began. */
  Judgement reopened(long[] stirred) {
    List<WrongBit> bits = new ArrayList<>();
    for (Line line : card.lines()) {
      if (isSet(stirred, line)) {
        bits.add(new WrongBit(line, "moved after the card was taken for settled"));
      }
    }
    return new Judgement(Verdict.UNSETTLED, "moved after it was taken for settled", bits);
  }

  private Judgement moving(Vector vector, Observation seen) {
    List<WrongBit> still = new ArrayList<>();
    boolean chatter = false;
    for (MovedBit bit : seen.moved()) {
      if (!seen.isConfirmed(bit, vector.timing().quietUs())) {
        chatter |= bit.moves() >= CHATTER_MOVES_AT_END;
        still.add(new WrongBit(bit.line(), "still moving at " + Micros.text(bit.lastUs())));
      }
    }
    return chatter
        ? new Judgement(Verdict.CHATTER, "a line goes on changing", still)
        : new Judgement(
            Verdict.UNSETTLED, "still moving after " + Micros.text(seen.durationUs()), still);
  }

  private List<WrongBit> wrongBits(Vector vector, long[] seen) {
    List<WrongBit> bits = new ArrayList<>();
    for (int b = 0; b < vector.care().length; b++) {
      Bus bus = card.buses().get(b);
      long differs = (seen[b] ^ vector.expect()[b]) & vector.care()[b];
      for (int bit = 0; differs != 0 && bit < bus.width(); bit++) {
        if ((differs >>> bit & 1) != 0) {
          long wanted = vector.expect()[b] >>> bit & 1;
          bits.add(
              new WrongBit(
                  card.lines().get(card.firstLine(b) + bit),
                  "wanted " + wanted + ", seen " + (1 - wanted)));
        }
      }
    }
    return bits;
  }

  private boolean isLate(Vector vector, MovedBit bit) {
    return isSet(vector.care(), bit.line())
        && bit.lastUs() > vector.timing().limitUs(bit.line().busIndex());
  }

  private List<WrongBit> disturbedBits(Vector vector, Observation seen) {
    List<WrongBit> bits =
        moved(seen, bit -> isSet(vector.still(), bit.line()), "moved, last at %s", null);
    for (Line line : card.lines()) {
      if (isSet(vector.still(), line)
          && isSet(seen.glitched(), line)
          && bits.stream().noneMatch(bit -> bit.line().equals(line))) {
        bits.add(new WrongBit(line, "gave a pulse shorter than the sampling period"));
      }
    }
    return bits;
  }

  private static List<WrongBit> moved(
      Observation seen, Predicate<MovedBit> wanted, String words, Vector limitsOf) {
    List<WrongBit> bits = new ArrayList<>();
    for (MovedBit bit : seen.moved()) {
      if (wanted.test(bit)) {
        String limit =
            limitsOf == null ? "" : Micros.text(limitsOf.timing().limitUs(bit.line().busIndex()));
        bits.add(new WrongBit(bit.line(), String.format(words, Micros.text(bit.lastUs())) + limit));
      }
    }
    return bits;
  }

  private static boolean isSet(long[] byBus, Line line) {
    return (byBus[line.busIndex()] >>> line.bit() & 1) != 0;
  }
}
