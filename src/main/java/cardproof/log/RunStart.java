package cardproof.log;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalLong;
import java.util.TreeMap;

/**
 * All that is known of a run before its first vector.
 *
 * @param unit what is being proved
 * @param cardTitle the card's title
 * @param plan name of the plan
 * @param planTitle its title
 * @param plannedVectors how many vectors were asked for
 * @param partial whether only some of the plan's steps were
 * @param seed of whatever was drawn at random, where anything was
 * @param fixture what it runs on
 * @param note what the operator wants remembered; may be empty
 * @param faults names of the faults put into the simulated card; empty for a real one
 * @param fileHashes SHA-256 in hexadecimal by file name, in the order of the names
 * @param limitsJson the limits in force
 * @param hookupJson the cabling in force
 * @param lines every line of the card; the n-th has index n
 * @param started kept to the microsecond
 */
public record RunStart(
    UnitId unit,
    String cardTitle,
    String plan,
    String planTitle,
    long plannedVectors,
    boolean partial,
    OptionalLong seed,
    FixtureUsed fixture,
    String note,
    List<String> faults,
    Map<String, String> fileHashes,
    String limitsJson,
    String hookupJson,
    List<LineName> lines,
    Instant started) {
  public RunStart {
    Objects.requireNonNull(unit);
    Objects.requireNonNull(cardTitle);
    Objects.requireNonNull(plan);
    Objects.requireNonNull(planTitle);
    Objects.requireNonNull(seed);
    Objects.requireNonNull(fixture);
    Objects.requireNonNull(note);
    Objects.requireNonNull(limitsJson);
    Objects.requireNonNull(hookupJson);
    faults = List.copyOf(faults);
    fileHashes = Collections.unmodifiableMap(new TreeMap<>(fileHashes));
    lines = List.copyOf(lines);
    for (int i = 0; i < lines.size(); i++) {
      if (lines.get(i).line() != i) {
        throw new IllegalArgumentException("line " + i + " of the card is " + lines.get(i));
      }
    }
    if (!unit.simulated() && !faults.isEmpty()) {
      throw new IllegalArgumentException("faults put into a real unit: " + faults);
    }
    started = started.truncatedTo(ChronoUnit.MICROS);
  }
}
