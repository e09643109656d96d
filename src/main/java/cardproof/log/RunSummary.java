package cardproof.log;

import java.time.Instant;
import java.util.Arrays;
import java.util.Map;
import java.util.Optional;

/**
 * A run in a line.
 *
 * @param id of the run in this log, from 1
 * @param unit what was proved
 * @param cardTitle the card's title
 * @param plan name of the plan
 * @param planTitle its title
 * @param started to the microsecond
 * @param ended empty while running or interrupted
 * @param end how it ended
 * @param why in words; may be empty
 * @param host name of the machine it ran on
 * @param planned how many vectors were asked for
 * @param partial whether only some of the plan's steps were asked for
 * @param continues the run that this one goes on from
 * @param counts vectors by verdict, every verdict present; superseded records are not counted
 */
public record RunSummary(
    long id,
    UnitId unit,
    String cardTitle,
    String plan,
    String planTitle,
    Instant started,
    Optional<Instant> ended,
    RunEnd end,
    String why,
    String host,
    long planned,
    boolean partial,
    Optional<Continues> continues,
    Map<Verdict, Long> counts) {

  /** How many vectors are recorded. */
  public long vectors() {
    return counts.values().stream().mapToLong(Long::longValue).sum();
  }

  /** The worst verdict of any vector; empty when there is none. */
  public Optional<Verdict> worst() {
    return Arrays.stream(Verdict.values()).filter(v -> counts.get(v) > 0).findFirst();
  }

  /** Whether the whole plan ran in this one run and every vector passed. */
  public boolean proved() {
    return end == RunEnd.FINISHED
        && !partial
        && continues.isEmpty()
        && worst().filter(v -> v == Verdict.PASS).isPresent();
  }
}
