package cardproof.sim.circuit;

import static cardproof.sim.circuit.Solder.GROUND;
import static cardproof.sim.circuit.Solder.PLUS;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cardproof.card.Supply;
import cardproof.card.wiring.Wiring;
import java.nio.file.Path;
import java.util.BitSet;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Node voltages of ten small networks, the kinds that yes and no do not settle, against ngspice: to
 * a millivolt with its diodes drawn with the engine's two straight lines, and to a third of a volt
 * with its own silicon junction.
 */
class SpiceAgreementTest {
  private static final double SAME_LINES = 0.001;
  private static final double JUNCTION = 0.35;

  @TempDir Path directory;

  @BeforeAll
  static void onlyWhereThereIsASimulator() {
    Spice.assumeInstalled();
  }

  static Stream<Arguments> networks() {
    return Stream.of(
        Arguments.of("two coils in series", coils(PLUS, "n1", "n1", GROUND)),
        Arguments.of("an open common return", openReturn()),
        Arguments.of(
            "a line fed through a coil", coils(PLUS, "n1").resistor("R1", "n1", GROUND, 1000)),
        Arguments.of(
            "three diodes in series",
            coils("n3", GROUND)
                .diode("D1", PLUS, "n1")
                .diode("D2", "n1", "n2")
                .diode("D3", "n2", "n3")),
        Arguments.of("lines joined by diodes", joinedByDiodes()),
        Arguments.of("a bridge with a coil across it", bridge()),
        Arguments.of("a matrix of lamps without its diodes", matrix(false)),
        Arguments.of("a matrix of lamps with them", matrix(true)),
        Arguments.of("a chain of lamps", chain()),
        Arguments.of(
            "two dividers and a diode between",
            new Solder()
                .resistor("R1", PLUS, "n1", 220)
                .resistor("R2", "n1", GROUND, 470)
                .resistor("R3", PLUS, "n2", 680)
                .resistor("R4", "n2", GROUND, 330)
                .diode("D1", "n1", "n2")
                .diode("D2", "n3", "n2")
                .resistor("R5", "n3", "n1", 1000)));
  }

  private static Solder coils(String... ends) {
    Solder solder = new Solder();
    for (int i = 0; i < ends.length; i += 2) {
      solder.relay("K" + i, Solder.pt(), ends[i], ends[i + 1]);
    }
    return solder;
  }

  private static Solder openReturn() {
    Solder solder = new Solder().wire("W1", PLUS, "A0");
    for (int i = 0; i < 6; i++) {
      solder
          .relay("K" + i, Solder.pt(), "A" + i, "RETURN")
          .diode("D" + i, "RETURN", "A" + i)
          .lamp("L" + i, "A" + i, GROUND, 40);
    }
    return solder;
  }

  private static Solder joinedByDiodes() {
    Solder solder = coils("n", GROUND, "A0", GROUND).resistor("R0", PLUS, "A0", 47);
    for (int i = 0; i < 4; i++) {
      solder.diode("D" + i, "A" + i, "n").resistor("R1" + i, "A" + i, GROUND, 1000);
    }
    return solder.resistor("R9", PLUS, "A1", 100);
  }

  private static Solder bridge() {
    return coils("n1", "n2")
        .resistor("R1", PLUS, "n1", 100)
        .resistor("R2", "n1", GROUND, 220)
        .resistor("R3", PLUS, "n2", 330)
        .resistor("R4", "n2", GROUND, 150);
  }

  /**
   * One row fed, one column returned; the other three lamps are on the way of the wrong current.
   */
  private static Solder matrix(boolean diodes) {
    Solder solder = new Solder().wire("W1", PLUS, "row0").wire("W2", "column0", GROUND);
    solder.resistor("R1", "column1", GROUND, 2200);
    for (int row = 0; row < 2; row++) {
      for (int column = 0; column < 2; column++) {
        String at = row + "" + column;
        solder.lamp("L" + at, "row" + row, diodes ? "n" + at : "column" + column, 40);
        if (diodes) {
          solder.diode("D" + at, "n" + at, "column" + column);
        }
      }
    }
    return solder;
  }

  private static Solder chain() {
    Solder solder = new Solder().fuse("F1", PLUS, "n0", 1000);
    for (int i = 0; i < 6; i++) {
      solder
          .lamp("L" + i, "n" + i, "n" + (i + 1), 40 + 10 * i)
          .resistor("R" + i, "n" + (i + 1), GROUND, 220 + 100 * i);
    }
    return solder;
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("networks")
  void sameVolts(String name, Solder solder) throws Exception {
    Wiring wiring = solder.wiring();
    RelayCircuit circuit =
        new RelayCircuit(
            FaultyWiring.always(wiring), new Supply(12_000, 100_000), new BitSet(), 1000, 1);
    double[] lines = new Spice(directory).volts(wiring, 12, Spice.DiodeAs.LINES, List.of());
    double[] junction = new Spice(directory).volts(wiring, 12, Spice.DiodeAs.JUNCTION, List.of());
    for (int net = 0; net < lines.length; net++) {
      assertThat(circuit.netVolts(net))
          .as("%s of %s", wiring.nets().get(net), name)
          .isCloseTo(lines[net], within(SAME_LINES))
          .isCloseTo(junction[net], within(JUNCTION));
    }
  }
}
