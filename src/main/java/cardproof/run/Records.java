package cardproof.run;

import cardproof.card.Card;
import cardproof.log.PowerOn;
import cardproof.log.RunWriter;
import cardproof.log.SupplyFinding;
import cardproof.log.SweepRecord;

/** Where a runner keeps its vectors. One thread. */
public interface Records {
  /** Takes a vector; it need not be safe yet. */
  void append(Judged judged);

  /**
   * The vector appended last is judged anew; what was written of it is kept beside. The lines that
   * the judgement rests on moved on after the vector, so they have no settle time in it.
   */
  void supersedeLast(Judgement judgement);

  /** Takes what a sweep found, after the last of its vectors. */
  void sweep(SweepRecord sweep);

  /** Takes what the supply current said of the card. */
  default void finding(SupplyFinding finding) {}

  /** Takes that the card's supply came on before a vector, ahead of that vector. */
  default void powerOn(PowerOn power) {}

  /**
   * Makes everything taken so far safe against the death of this process.
   *
   * @throws cardproof.log.LogException when that fails; nothing may then be acknowledged or
   *     reported
   */
  void commit();

  /** In the bench log. */
  static Records in(RunWriter writer, Card card) {
    return new LogRecords(card, writer);
  }
}
