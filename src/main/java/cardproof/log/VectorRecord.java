package cardproof.log;

import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;

/**
 * One vector, judged. Sets are over line indexes of the whole card and are not changed once handed
 * over; times are in microseconds on the fixture's clock.
 *
 * @param number of the vector within the run, from 0; no two are the same
 * @param step index of the step it comes from, which the writer was told of before
 * @param indexInStep from 0
 * @param verdict what was found
 * @param why the finding in words; empty for a pass
 * @param startUs when the first drive had switched
 * @param durationUs from start to the end of watching
 * @param gapUs longest silence before the last change
 * @param quietUs the quiet window in force
 * @param driven lines driven at all
 * @param level of the driven lines, those driven to 1
 * @param wanted levels that should have come
 * @param cared lines whose level was judged
 * @param seen levels at the end
 * @param before levels before the drives switched
 * @param moved every watched line that moved, none twice; kept in the order of the lines
 * @param supply what was measured of the card's supply
 */
public record VectorRecord(
    long number,
    int step,
    long indexInStep,
    Verdict verdict,
    String why,
    long startUs,
    long durationUs,
    long gapUs,
    long quietUs,
    BitSet driven,
    BitSet level,
    BitSet wanted,
    BitSet cared,
    BitSet seen,
    BitSet before,
    List<MovedLine> moved,
    SupplyRecord supply) {
  public VectorRecord {
    Objects.requireNonNull(supply);
    Objects.requireNonNull(verdict);
    Objects.requireNonNull(why);
    moved = moved.stream().sorted(Comparator.comparingInt(MovedLine::line)).toList();
    if (number < 0) {
      throw new IllegalArgumentException("vector " + number);
    }
    for (int i = 1; i < moved.size(); i++) {
      if (moved.get(i).line() == moved.get(i - 1).line()) {
        throw new IllegalArgumentException(
            "line " + moved.get(i).line() + " is given twice in vector " + number);
      }
    }
  }

  /** Of a fixture that does not measure the supply. */
  public VectorRecord(
      long number,
      int step,
      long indexInStep,
      Verdict verdict,
      String why,
      long startUs,
      long durationUs,
      long gapUs,
      long quietUs,
      BitSet driven,
      BitSet level,
      BitSet wanted,
      BitSet cared,
      BitSet seen,
      BitSet before,
      List<MovedLine> moved) {
    this(
        number,
        step,
        indexInStep,
        verdict,
        why,
        startUs,
        durationUs,
        gapUs,
        quietUs,
        driven,
        level,
        wanted,
        cared,
        seen,
        before,
        moved,
        SupplyRecord.NOTHING);
  }

  /** The same observation with another verdict. */
  public VectorRecord judgedAnew(Verdict other, String reason) {
    return judgedAnew(other, reason, moved);
  }

  /** The same observation with another verdict, and another view of the lines that moved. */
  public VectorRecord judgedAnew(Verdict other, String reason, List<MovedLine> movedAnew) {
    return new VectorRecord(
        number,
        step,
        indexInStep,
        other,
        reason,
        startUs,
        durationUs,
        gapUs,
        quietUs,
        driven,
        level,
        wanted,
        cared,
        seen,
        before,
        movedAnew,
        supply);
  }

  /** The same observation with these moved lines. */
  VectorRecord withMoved(List<MovedLine> others) {
    return judgedAnew(verdict, why, others);
  }
}
