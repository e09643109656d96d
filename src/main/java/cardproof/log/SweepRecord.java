package cardproof.log;

import java.util.List;
import java.util.Objects;
import java.util.OptionalLong;

/**
 * What a sweep found; times in microseconds on the fixture's clock.
 *
 * @param firstTrial number of the vector that was its first trial
 * @param step index of its step, which the writer was told of before
 * @param what in words: {@code set-up of D before LD goes to 0}
 * @param resolutionUs how far the times that it tried were apart at the least
 * @param atMostUs limit; empty where none was set
 * @param trials how many there were
 * @param planned how many there should have been
 * @param lines in the order of the lines, rising first
 */
public record SweepRecord(
    long firstTrial,
    int step,
    String what,
    long fromUs,
    long toUs,
    long resolutionUs,
    OptionalLong atMostUs,
    int trials,
    long planned,
    List<SweepLine> lines) {
  public SweepRecord {
    Objects.requireNonNull(what);
    lines = List.copyOf(lines);
  }

  /** Whether the run ended before it. */
  public boolean cutShort() {
    return trials < planned;
  }
}
