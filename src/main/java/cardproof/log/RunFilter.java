package cardproof.log;

import java.time.Instant;
import java.util.Optional;

/**
 * Which runs to list, newest first. Units of the simulated bench are left out unless asked for.
 *
 * @param card only this card
 * @param unit only units of this name
 * @param bench real units, simulated ones, or both
 * @param since only runs started then or later
 * @param limit at most so many
 */
public record RunFilter(
    Optional<String> card, Optional<String> unit, Bench bench, Optional<Instant> since, int limit) {

  /** Which units are meant. */
  public enum Bench {
    REAL,
    SIMULATED,
    BOTH
  }

  /** Every run of every real unit. */
  public static RunFilter real() {
    return new RunFilter(
        Optional.empty(), Optional.empty(), Bench.REAL, Optional.empty(), Integer.MAX_VALUE);
  }

  /** Every run of exactly this unit, which also says whether it is simulated. */
  public static RunFilter of(UnitId id) {
    return new RunFilter(
        Optional.of(id.card()),
        Optional.of(id.unit()),
        id.simulated() ? Bench.SIMULATED : Bench.REAL,
        Optional.empty(),
        Integer.MAX_VALUE);
  }

  public RunFilter card(String name) {
    return new RunFilter(Optional.of(name), unit, bench, since, limit);
  }

  public RunFilter unit(String name) {
    return new RunFilter(card, Optional.of(name), bench, since, limit);
  }

  public RunFilter bench(Bench which) {
    return new RunFilter(card, unit, which, since, limit);
  }

  public RunFilter since(Instant earliest) {
    return new RunFilter(card, unit, bench, Optional.of(earliest), limit);
  }

  public RunFilter limit(int most) {
    return new RunFilter(card, unit, bench, since, most);
  }
}
