package cardproof.cli;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeParseException;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** A day or a moment as ISO 8601 writes it, in this machine's own time where it names no zone. */
final class SinceOption implements ITypeConverter<Instant> {
  @Override
  public Instant convert(String text) {
    try {
      if (text.length() == "2026-03-01".length()) {
        return LocalDate.parse(text).atStartOfDay(ZoneId.systemDefault()).toInstant();
      }
      return text.endsWith("Z")
          ? Instant.parse(text)
          : LocalDateTime.parse(text.replace(' ', 'T')).atZone(ZoneId.systemDefault()).toInstant();
    } catch (DateTimeParseException e) {
      throw new TypeConversionException(
          "'" + text + "' is no date; wanted one like 2026-03-01 or 2026-03-01T14:30");
    }
  }
}
