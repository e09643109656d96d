package cardproof.run;

import cardproof.log.Verdict;
import java.util.List;

/**
 * A verdict with its reasons.
 *
 * @param why one sentence; empty for a pass
 * @param bits the lines it rests on; empty for a pass
 */
public record Judgement(Verdict verdict, String why, List<WrongBit> bits) {
  public Judgement {
    bits = List.copyOf(bits);
  }

  static Judgement pass() {
    return new Judgement(Verdict.PASS, "", List.of());
  }

  static Judgement untested(String why) {
    return new Judgement(Verdict.UNTESTED, why, List.of());
  }
}
