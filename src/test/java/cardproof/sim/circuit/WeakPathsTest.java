package cardproof.sim.circuit;

import static cardproof.sim.circuit.Solder.GROUND;
import static cardproof.sim.circuit.Solder.PLUS;
import static cardproof.sim.circuit.Solder.contact;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cardproof.card.Supply;
import cardproof.card.wiring.Wiring;
import java.util.BitSet;
import org.junit.jupiter.api.Test;

/** Where yes and no are not enough. Levels by Ohm's law, worked out beside each. */
class WeakPathsTest {
  private static RelayCircuit circuit(Wiring wiring, long limitMilliamps, int... watched) {
    BitSet lines = new BitSet();
    for (int line : watched) {
      lines.set(line);
    }
    return new RelayCircuit(
        FaultyWiring.always(wiring), new Supply(12_000, limitMilliamps), lines, 1000, 5);
  }

  private static void drive(RelayCircuit circuit, long atNs, long word) {
    circuit.drive(atNs, BitSet.valueOf(new long[] {word}));
  }

  private static long volts(RelayCircuit circuit, Wiring wiring, String net) {
    return circuit.netMillivolts(wiring.net(net));
  }

  /** Two equal coils in series get 50 % each: too little to operate, enough to hold. */
  @Test
  void coilsInSeriesHoldButDoNotOperate() {
    Wiring wiring =
        new Solder()
            .line("TOP")
            .line("BYPASS")
            .relay("K1", Solder.pt(), "TOP", "MID")
            .relay("K2", Solder.pt(), "MID", GROUND)
            .relay("KB", Solder.pt(), "BYPASS", GROUND, contact("MID", PLUS, null))
            .relay("KC", Solder.pt(), "BYPASS", GROUND, contact("MID", GROUND, null))
            .wiring();
    RelayCircuit circuit = circuit(wiring, 5000);

    drive(circuit, 0, 0b01);
    circuit.advance(100_000_000);
    assertThat(volts(circuit, wiring, "MID")).isEqualTo(6000);
    assertThat(circuit.isEnergised(0)).isFalse();
    assertThat(circuit.isEnergised(1)).isFalse();
    assertThat(circuit.supplyMicroamps()).isEqualTo(31_250);

    Wiring held =
        new Solder()
            .line("TOP")
            .line("BYPASS")
            .relay("K1", Solder.pt(), "TOP", "MID")
            .relay("K2", Solder.pt(), "MID", GROUND)
            .relay("KB", Solder.pt(), "BYPASS", GROUND, contact("MID", GROUND, null))
            .wiring();
    RelayCircuit holding = circuit(held, 5000);
    drive(holding, 0, 0b11);
    holding.advance(100_000_000);
    assertThat(holding.isEnergised(0)).as("with its other end at ground").isTrue();
    drive(holding, 100_000_000, 0b01);
    holding.advance(300_000_000);
    assertThat(volts(holding, held, "MID")).isEqualTo(6000);
    assertThat(holding.isEnergised(0)).as("holds with half its voltage").isTrue();
    assertThat(holding.isEnergised(1)).isFalse();
  }

  /**
   * 17 coils with one common return, which is open; a lamp of 300 ohm on each line. The current of
   * the one driven coil goes back through 16 flyback diodes and lamps: 11.3 V x 192 / (192 + 301 /
   * 16) = 10.29 V and a little more for the coils beside the diodes, 86 % of 12 V: it operates.
   */
  @Test
  void anOpenCommonReturnOperatesAllTheSame() {
    Solder solder = new Solder();
    for (int i = 0; i < 17; i++) {
      solder.line("A" + i);
    }
    for (int i = 0; i < 17; i++) {
      solder
          .relay("K" + i, Solder.pt(), "A" + i, "RETURN")
          .diode("D" + i, "RETURN", "A" + i)
          .lamp("L" + i, "A" + i, GROUND, 40);
    }
    Wiring wiring = solder.wiring();
    RelayCircuit circuit = circuit(wiring, 5000);

    drive(circuit, 0, 1);
    double across = (volts(circuit, wiring, "A0") - volts(circuit, wiring, "RETURN")) / 12_000.0;
    assertThat(across).isCloseTo(0.86, within(0.005));
    assertThat(circuit.isEnergised(0)).isTrue();
    assertThat(circuit.energisedCoils()).isEqualTo(1);
  }

  /** 192 ohm from the supply into 1 kohm: 10.07 V, which an input takes for 1. */
  @Test
  void aLineFedThroughACoilReadsOne() {
    Wiring wiring = new Solder().line("S").relay("K1", Solder.pt(), PLUS, "S").wiring();
    RelayCircuit circuit = circuit(wiring, 5000, 0);

    assertThat(volts(circuit, wiring, "S")).isEqualTo(10_067);
    assertThat(circuit.level(0)).isTrue();
    assertThat(circuit.isEnergised(0)).isFalse();
    assertThat(circuit.weakLines().isEmpty()).isTrue();
  }

  /** 1 kohm into 1 kohm: half the supply is neither, and a line keeps what it was. */
  @Test
  void betweenTheLevelsALineKeepsAndIsMarked() {
    Wiring wiring =
        new Solder()
            .line("S")
            .line("UP")
            .relay("K1", Solder.pt(), "UP", GROUND, contact("S", PLUS, null))
            .resistor("R1", PLUS, "S", 1000)
            .wiring();
    RelayCircuit circuit = circuit(wiring, 5000, 0);
    assertThat(volts(circuit, wiring, "S")).isEqualTo(6000);
    assertThat(circuit.level(0)).isFalse();
    assertThat(circuit.weakLines()).isEqualTo(BitSet.valueOf(new long[] {1}));

    drive(circuit, 0, 0b10);
    circuit.advance(100_000_000);
    assertThat(circuit.level(0)).isTrue();
    assertThat(circuit.weakLines().isEmpty()).isTrue();
    drive(circuit, 100_000_000, 0);
    circuit.advance(200_000_000);
    assertThat(volts(circuit, wiring, "S")).isEqualTo(6000);
    assertThat(circuit.level(0)).as("keeps").isTrue();
    assertThat(circuit.warnings().weakReadings()).isGreaterThanOrEqualTo(2);
  }

  /** n diodes and a coil of 192 ohm: (12 - 0.7 n) x 192 / (192 + n); 75 % is 9 V. */
  @Test
  void severalDiodesInSeriesTakeTheirShare() {
    for (int diodes = 0; diodes <= 6; diodes++) {
      Solder solder = new Solder().line("A");
      String at = "A";
      for (int d = 0; d < diodes; d++) {
        solder.diode("D" + d, at, "n" + d);
        at = "n" + d;
      }
      Wiring wiring = solder.relay("K1", Solder.pt(), at, GROUND).wiring();
      RelayCircuit circuit = circuit(wiring, 5000);
      drive(circuit, 0, 1);

      double volts = (12 - 0.7 * diodes) * 192 / (192 + diodes);
      assertThat(volts(circuit, wiring, at) / 1e3).isCloseTo(volts, within(0.001));
      assertThat(circuit.isEnergised(0)).as("%d diodes", diodes).isEqualTo(volts >= 9);
      assertThat(circuit.warnings().uncertainCoils())
          .as("near the threshold with %d diodes", diodes)
          .isEqualTo(Math.abs(volts - 9) < 0.05 * 12 ? 1 : 0);
    }
  }

  /** Four coils of 192 ohm want 250 mA; at 200 mA they have 9.6 V left, at 100 mA only 4.8 V. */
  @Test
  void aSupplyAtItsLimitGoesDown() {
    Solder solder = new Solder();
    for (int i = 0; i < 4; i++) {
      solder.line("A" + i).relay("K" + i, Solder.pt(), "A" + i, GROUND);
    }
    Wiring wiring = solder.wiring();
    RelayCircuit enough = circuit(wiring, 200);
    drive(enough, 0, 0b1111);
    assertThat(enough.supplyMillivolts()).isCloseTo(9600, within(10L));
    assertThat(enough.supplyMicroamps()).isCloseTo(200_000, within(200L));
    assertThat(enough.energisedCoils()).isEqualTo(4);
    assertThat(enough.warnings().limited()).isEqualTo(1);
    drive(enough, 50_000_000, 0b0011);
    assertThat(enough.supplyMillivolts()).isEqualTo(12_000);

    RelayCircuit little = circuit(wiring, 100);
    drive(little, 0, 0b0001);
    drive(little, 50_000_000, 0b1111);
    assertThat(little.supplyMillivolts()).isCloseTo(4800, within(10L));
    assertThat(little.energisedCoils()).as("one holds, the others do not operate").isEqualTo(1);
    assertThat(little.supplyTripped()).isFalse();
  }
}
