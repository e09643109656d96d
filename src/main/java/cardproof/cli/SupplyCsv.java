package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.SupplyRecord;
import cardproof.log.VectorRecord;
import java.io.PrintWriter;
import java.util.List;
import java.util.OptionalInt;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Rail and current of a run over time, a vector a row: RFC 4180, an empty field for what was not
 * measured.
 */
final class SupplyCsv {
  private static final List<String> COLUMNS =
      List.of(
          "vector",
          "start_us",
          "duration_us",
          "rail_mv",
          "rail_low_mv",
          "current_ma",
          "current_high_ma",
          "current_expected_ma",
          "verdict");

  private SupplyCsv() {}

  static void print(BenchLog log, long run, PrintWriter out) {
    out.print(String.join(",", COLUMNS) + "\r\n");
    log.forEachVector(run, vector -> out.print(row(vector)));
  }

  private static String row(VectorRecord vector) {
    SupplyRecord supply = vector.supply();
    String measured =
        Stream.of(
                supply.railMv(),
                supply.lowestRailMv(),
                supply.currentMa(),
                supply.highestCurrentMa(),
                supply.expectedMa())
            .map(SupplyCsv::cell)
            .collect(Collectors.joining(","));
    return String.format(
        "%d,%d,%d,%s,%s\r\n",
        vector.number() + 1,
        vector.startUs(),
        vector.durationUs(),
        measured,
        vector.verdict().word());
  }

  private static String cell(OptionalInt value) {
    return value.isPresent() ? Integer.toString(value.getAsInt()) : "";
  }
}
