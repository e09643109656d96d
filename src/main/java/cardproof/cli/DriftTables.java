package cardproof.cli;

import cardproof.log.UnitId;
import cardproof.timing.drift.Drift;
import cardproof.timing.drift.DriftWatch;
import cardproof.timing.drift.Point;
import cardproof.timing.drift.Series;
import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.util.HexFormat;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;

/** Medians over runs for other programs. Columns and keys are only ever added. */
final class DriftTables {
  private DriftTables() {}

  /** A row a line, direction and run, RFC 4180. */
  static void csv(List<Series> all, PrintWriter out) {
    try {
      CSVPrinter table = new CSVPrinter(out, CSVFormat.RFC4180);
      table.printRecord("line", "label", "going", "transition", "run", "n", "median_us");
      for (Series series : all) {
        for (Point point : series.points()) {
          table.printRecord(
              name(series),
              series.line().label(),
              series.direction(),
              HexFormat.of().toHexDigits(series.transition()),
              point.run(),
              point.n(),
              Math.round(point.medianUs()));
        }
      }
      table.flush();
    } catch (IOException e) {
      throw new UncheckedIOException("writing to standard output", e);
    }
  }

  static void json(
      UnitId unit, DriftRuns runs, DriftWatch watch, List<String> relays, PrintWriter out) {
    JsonPage.print(
        out,
        json -> {
          json.name("unit").value(unit.toString());
          JsonPage.numbers(json, "voidRuns", runs.voided());
          JsonPage.numbers(json, "runsOnOtherFixtures", runs.elsewhere());
          json.name("commonShiftUs").value(watch.commonUs().orElse(0));
          json.name("relays").beginArray();
          for (String relay : relays) {
            json.value(relay);
          }
          json.endArray();
          json.name("lines").beginArray();
          for (Drift drift : watch.drifts()) {
            line(json, drift);
          }
          json.endArray();
        });
  }

  private static void line(JsonWriter json, Drift drift) throws IOException {
    json.beginObject();
    json.name("line").value(name(drift.series()));
    json.name("label").value(drift.series().line().label());
    json.name("direction").value(drift.series().direction());
    json.name("baselineUs").value(drift.baselineUs());
    json.name("spreadUs").value(drift.spreadUs());
    json.name("shiftUs").value(drift.shiftUs());
    json.name("slopeUsARun").value(drift.slopeUs());
    json.name("alarm").value(drift.alarm());
    json.name("alarmLasts").value(drift.lasts());
    json.name("gettingSlower").value(drift.slower());
    json.name("medians").beginArray();
    for (Point point : drift.series().points()) {
      json.beginObject();
      json.name("run").value(point.run());
      json.name("n").value(point.n());
      json.name("medianUs").value(point.medianUs());
      json.endObject();
    }
    json.endArray();
    json.endObject();
  }

  private static String name(Series series) {
    return series.line().bus() + "[" + series.line().bit() + "]";
  }
}
