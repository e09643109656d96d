package cardproof.run;

import cardproof.bits.WordText;
import cardproof.card.Bus;
import cardproof.log.Verdict;
import cardproof.plan.Vector;
import java.util.ArrayList;
import java.util.List;

/**
 * A vector that did not pass, in the user's own names.
 *
 * @param vector its number, from 1
 * @param at {@code file:line#index}
 * @param title of its step
 * @param drives what was driven
 * @param buses wanted beside seen, for each bus that has to do with the verdict
 * @param bits the lines that the verdict rests on
 */
public record Failure(
    long vector,
    String at,
    String title,
    Verdict verdict,
    String why,
    String drives,
    List<BusView> buses,
    List<WrongBit> bits) {

  /** A bus as it had to be and as it was; x stands for bits that were not judged. */
  public record BusView(String bus, String wanted, String seen) {}

  static Failure of(Judged judged) {
    Vector vector = judged.vector();
    List<BusView> buses = new ArrayList<>();
    for (int b = 0; b < vector.card().buses().size(); b++) {
      Bus bus = vector.card().buses().get(b);
      int index = b;
      if (judged.judgement().bits().stream().anyMatch(bit -> bit.line().busIndex() == index)) {
        buses.add(
            new BusView(
                bus.name(),
                WordText.of(vector.expect()[b], bus.mask() & ~vector.care()[b], bus.width()),
                WordText.of(judged.observation().seen()[b], 0, bus.width())));
      }
    }
    return new Failure(
        vector.number() + 1,
        vector.origin(),
        vector.step().title(),
        judged.judgement().verdict(),
        judged.judgement().why(),
        vector.describe(),
        buses,
        judged.judgement().bits());
  }
}
