package cardproof.run;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.fixture.MovedBit;
import cardproof.fixture.Observation;
import cardproof.log.MovedLine;
import cardproof.log.PowerOn;
import cardproof.log.RunWriter;
import cardproof.log.StepTitle;
import cardproof.log.SupplyFinding;
import cardproof.log.SupplyRecord;
import cardproof.log.SweepRecord;
import cardproof.log.VectorRecord;
import cardproof.plan.Trial;
import cardproof.plan.Vector;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/** Writes judged vectors to the bench log in the log's own terms: card-wide line numbers. */
final class LogRecords implements Records {
  private final Card card;
  private final RunWriter writer;
  private final BitSet titled = new BitSet();
  private final long[] levelBefore;
  private final long[] enabledBefore;
  private VectorRecord last;
  private int findings;

  LogRecords(Card card, RunWriter writer) {
    this.card = card;
    this.writer = writer;
    this.levelBefore = new long[card.buses().size()];
    this.enabledBefore = new long[card.buses().size()];
  }

  @Override
  public void append(Judged judged) {
    Vector vector = judged.vector();
    if (!titled.get(vector.stepNumber())) {
      titled.set(vector.stepNumber());
      writer.step(
          new StepTitle(
              vector.stepNumber(),
              vector.step().at().file(),
              vector.step().at().line(),
              vector.step().title(),
              vector.step().marks().calledFrom()));
    }
    last = record(judged);
    writer.append(last);
    System.arraycopy(vector.lastLevel(), 0, levelBefore, 0, levelBefore.length);
    System.arraycopy(vector.lastEnabled(), 0, enabledBefore, 0, enabledBefore.length);
  }

  @Override
  public void supersedeLast(Judgement judgement) {
    BitSet movedOn = new BitSet();
    judgement.bits().forEach(bit -> movedOn.set(bit.line().index()));
    List<MovedLine> moved =
        last.moved().stream().map(m -> movedOn.get(m.line()) ? m.unconfirmed() : m).toList();
    last = last.judgedAnew(judgement.verdict(), judgement.why(), moved);
    writer.supersede(last, judgement.why());
  }

  @Override
  public void sweep(SweepRecord sweep) {
    writer.sweep(sweep);
  }

  @Override
  public void finding(SupplyFinding finding) {
    writer.finding(findings++, finding);
  }

  @Override
  public void powerOn(PowerOn power) {
    writer.powerOn(power);
  }

  @Override
  public void commit() {
    writer.commit();
  }

  private VectorRecord record(Judged judged) {
    Vector vector = judged.vector();
    Observation seen = judged.observation();
    List<MovedLine> moved = new ArrayList<>(seen.moved().size());
    for (MovedBit bit : seen.moved()) {
      boolean censored = !seen.isConfirmed(bit, vector.timing().quietUs());
      moved.add(
          new MovedLine(
              bit.line().index(),
              bit.endsHigh(),
              bit.firstUs(),
              bit.lastUs(),
              bit.changes(),
              bit.moves(),
              censored,
              movedByFixture(vector, bit.line())));
    }
    return new VectorRecord(
        vector.number(),
        vector.stepNumber(),
        vector.index(),
        judged.judgement().verdict(),
        judged.judgement().why(),
        seen.startUs(),
        seen.durationUs(),
        seen.gapUs(),
        vector.timing().quietUs(),
        lines(vector.lastEnabled()),
        lines(vector.lastLevel()),
        lines(vector.expect()),
        lines(vector.trial().map(Trial::lines).orElseGet(vector::care)),
        lines(seen.seen()),
        lines(seen.before()),
        moved,
        new SupplyRecord(
            seen.supply().railMv(),
            seen.supply().lowestRailMv(),
            seen.supply().currentMa(),
            seen.supply().highestCurrentMa(),
            judged.expectedMa()));
  }

  /**
   * Whether the fixture itself changed what it drives on this line. In a sequence the times count
   * from its start and not from what moved the line, so none of them is the card's.
   */
  private boolean movedByFixture(Vector vector, Line line) {
    if (!vector.later().isEmpty()) {
      return true;
    }
    int b = line.busIndex();
    long now = vector.level()[b] & vector.enabled()[b];
    long before = levelBefore[b] & enabledBefore[b];
    return ((now ^ before) >>> line.bit() & 1) != 0;
  }

  private BitSet lines(long[] byBus) {
    BitSet set = new BitSet(card.lines().size());
    for (Line line : card.lines()) {
      if ((byBus[line.busIndex()] >>> line.bit() & 1) != 0) {
        set.set(line.index());
      }
    }
    return set;
  }
}
