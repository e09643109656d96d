package cardproof.run;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.log.Verdict;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/** Counts of a run, kept as it goes. One thread. */
public final class Tally implements RunListener {
  private final Map<Verdict, Long> counts = new EnumMap<>(Verdict.class);
  private Judged previous;
  private long judgedVectors;
  private long[] everJudged = {};
  private long notJudgedBits;
  private long cardUs;

  @Override
  public void judged(Judged judged) {
    count(judged.judgement().verdict(), 1);
    judgedVectors++;
    if (judged.judgement().verdict() != Verdict.UNTESTED) {
      notJudgedBits += judged.vector().ofSweep() ? 0 : judged.vector().notJudgedBits();
      noteCare(judged.vector().care());
    }
    cardUs += judged.observation().durationUs();
    previous = judged;
  }

  @Override
  public void superseded(Judged judged) {
    count(previous.judgement().verdict(), -1);
    count(judged.judgement().verdict(), 1);
    previous = judged;
  }

  private void count(Verdict verdict, long change) {
    counts.merge(verdict, change, Long::sum);
  }

  private void noteCare(long[] care) {
    if (everJudged.length < care.length) {
      everJudged = Arrays.copyOf(everJudged, care.length);
    }
    for (int b = 0; b < care.length; b++) {
      everJudged[b] |= care[b];
    }
  }

  /** Watched lines of the card that no vector has judged. */
  public List<Line> neverJudged(Card card) {
    return card.lines().stream()
        .filter(line -> line.bus().role().watched())
        .filter(
            line ->
                line.busIndex() >= everJudged.length
                    || (everJudged[line.busIndex()] >>> line.bit() & 1) == 0)
        .toList();
  }

  public long count(Verdict verdict) {
    return counts.getOrDefault(verdict, 0L);
  }

  /** Vectors that have a verdict of any kind. */
  public long judgedVectors() {
    return judgedVectors;
  }

  public long failed() {
    return judgedVectors - count(Verdict.PASS) - count(Verdict.UNTESTED) - count(Verdict.MEASURED);
  }

  /** Bits that were watched but had no expectation, over all vectors but those of sweeps. */
  public long notJudgedBits() {
    return notJudgedBits;
  }

  /** Time the card took, on the fixture's clock. */
  public long cardUs() {
    return cardUs;
  }
}
