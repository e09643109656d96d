package cardproof.log;

import java.time.Instant;
import java.time.temporal.ChronoUnit;

/** Instants as the database writes them: microseconds since 1970-01-01 UTC. */
final class Micros {
  private Micros() {}

  static long of(Instant instant) {
    return ChronoUnit.MICROS.between(Instant.EPOCH, instant);
  }

  static Instant instant(long micros) {
    return Instant.EPOCH.plus(micros, ChronoUnit.MICROS);
  }
}
