package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cardproof.card.Card;
import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Wiring;
import cardproof.card.wiring.meter.Reading;
import cardproof.files.CardFile;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class MeterSheetTest {
  private static final Path SUM = Path.of("vectors", "sum", "card.yaml");

  private static Card card(String name) {
    return CardFile.read(Path.of("vectors", name, "card.yaml")).value();
  }

  private static Reading reading(Card card, Wiring wiring, String line, String rail) {
    return MeterSheet.readings(card, wiring).stream()
        .filter(reading -> reading.line().equals(line) && reading.rail().equals(rail))
        .findFirst()
        .orElseThrow();
  }

  /** A coil of 192 ohm: 12 V x 192 / 1192. Its diode: 0.7 V and 1 ohm, most of the current. */
  @Test
  void aCoilWithItsDiodeShowsBothWays() {
    Card sum = card("sum");
    Reading coil = reading(sum, sum.wiring().orElseThrow(), "A[3]", "GND");
    assertThat(coil.pin()).isEqualTo("J1.4");
    assertThat(coil.ohms()).isCloseTo(192, within(1e-6));
    assertThat(coil.forwardVolts()).isCloseTo(12 * 192 / 1192.0, within(1e-6));
    assertThat(coil.reverseVolts()).isBetween(0.7, 0.72);
    assertThat(reading(sum, sum.wiring().orElseThrow(), "A[3]", "IN").ohms()).isInfinite();
  }

  @Test
  void aDiodeTheWrongWayRoundExchangesTheReadings() {
    Card sum = card("sum");
    Wiring wiring = sum.wiring().orElseThrow();
    List<Part> parts =
        wiring.parts().stream().map(part -> turned(part, "BIT[3].A.flyback")).toList();
    Reading coil = reading(sum, wiring.withParts(parts), "A[3]", "GND");
    assertThat(coil.ohms()).isCloseTo(192, within(1e-6));
    assertThat(coil.forwardVolts()).isBetween(0.7, 0.72);
    assertThat(coil.reverseVolts()).isCloseTo(12 * 192 / 1192.0, within(1e-6));
  }

  private static Part turned(Part part, String name) {
    return part instanceof Diode d && d.name().equals(name)
        ? new Diode(d.name(), d.cathode(), d.anode(), d.spot(), d.at())
        : part;
  }

  @ParameterizedTest
  @ValueSource(strings = {"sum", "hold", "hour", "pick", "store"})
  void everyDemonstrationCardHasItsSheet(String name) {
    Card card = card(name);
    List<Reading> readings = MeterSheet.readings(card, card.wiring().orElseThrow());
    assertThat(readings).hasSize(2 * card.lines().size() + 1);
    assertThat(readings)
        .allSatisfy(
            reading -> {
              assertThat(reading.forwardVolts()).isBetween(0.0, 12.0 + 1e-6);
              assertThat(reading.reverseVolts()).isBetween(0.0, 12.0 + 1e-6);
            });
  }

  @Test
  void itIsPrintedAsATableAndAsCsv() {
    assertThat(Cli.run("check", SUM, "--sheet").out())
        .contains(
            "  J1.4     A[3]       GND             192    1.9 V    0.7 V    ____  ____  ____");
    assertThat(Cli.run("check", SUM, "--sheet", "--csv").out())
        .startsWith("pin,line,to,ohms,")
        .contains("J1.4,A[3],GND,192.0,1.93,0.71,,,\r\n");
  }

  @Test
  void aPlanHasNone() {
    Cli cli = Cli.run("check", Path.of("vectors", "sum", "bring-up.yaml"), "--sheet");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err()).contains("--sheet goes with a card");
  }
}
