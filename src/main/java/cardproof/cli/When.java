package cardproof.cli;

import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/** Moments as a person at the bench reads them: to the second, in this machine's own time. */
final class When {
  private static final DateTimeFormatter FORMAT =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm:ss", Locale.ROOT)
          .withZone(ZoneId.systemDefault());

  private When() {}

  static String text(Instant moment) {
    return FORMAT.format(moment);
  }
}
