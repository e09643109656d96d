package cardproof.sim.circuit;

import static cardproof.sim.circuit.Solder.GROUND;
import static cardproof.sim.circuit.Solder.PLUS;
import static cardproof.sim.circuit.Solder.contact;
import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.wiring.Figure;
import cardproof.card.wiring.RelayType;
import cardproof.card.wiring.Wiring;
import org.junit.jupiter.api.Test;

/** Shorts, and what opens. Times and levels are the engine's own rules, worked out beside each. */
class ProtectionTest {
  private static final long MS = 1_000_000;

  /** Quick and without bounce, so that a short can be over in time. */
  private static RelayType quick(long operateUs) {
    Figure operate = new Figure(operateUs, operateUs, operateUs);
    Figure release = new Figure(500, 500, 500);
    return Solder.type("quick", 12_000, 192, operate, release, release, 0, 0);
  }

  @Test
  void aShortTripsAfterTwoMillisecondsAndOpensItsFuse() {
    Wiring wiring =
        new Solder()
            .line("A")
            .line("S")
            .fuse("F1", "IN", PLUS, 3000)
            .fuse("F2", "IN", "lamps", 1000)
            .lamp("L1", "lamps", GROUND, 40)
            .relay("K1", quick(5000), "A", GROUND, contact(PLUS, GROUND, null))
            .resistor("R1", PLUS, "S", 10)
            .wiring("IN");
    CircuitProbe probe = CircuitProbe.of(wiring, 1);
    assertThat(probe.circuit.level(1)).isTrue();

    probe.drive(1);
    probe.advance(5 * MS + 1000); // its contact makes between 4.8 and 5 ms
    assertThat(probe.circuit.supplyTripped()).isFalse();
    probe.advance(6 * MS + 700_000);
    assertThat(probe.circuit.supplyTripped()).isFalse();
    probe.advance(7 * MS + 300_000);
    assertThat(probe.circuit.supplyTripped()).isTrue();
    assertThat(probe.circuit.warnings().blownFuses()).containsExactly("F1");
    assertThat(probe.circuit.warnings().shortGlitches()).isZero();
    assertThat(probe.circuit.supplyMillivolts()).isZero();
    assertThat(probe.circuit.supplyMicroamps()).isZero();
    assertThat(probe.circuit.energisedCoils()).isZero();
    assertThat(probe.circuit.level(1)).isFalse();
    probe.drive(0);
    probe.advance(1000 * MS);
    assertThat(probe.circuit.supplyTripped()).as("until somebody switches it on").isTrue();
  }

  /** K1 shorts after 5 ms, and K2, whose contact is in series, opens that after 6 ms. */
  @Test
  void aShorterOneIsAWarning() {
    Wiring wiring =
        new Solder()
            .line("A")
            .relay("K1", quick(5000), "A", GROUND, contact(PLUS, "x", null))
            .relay("K2", quick(9000), "A", GROUND, contact("x", null, GROUND))
            .wiring();
    CircuitProbe probe = CircuitProbe.of(wiring, 1);
    for (int i = 1; i <= 3; i++) {
      probe.drive(1);
      probe.advance(probe.nowNs() + 100 * MS);
      probe.drive(0);
      probe.advance(probe.nowNs() + 100 * MS);
      assertThat(probe.circuit.warnings().shortGlitches()).isEqualTo(i);
    }
    assertThat(probe.circuit.supplyTripped()).isFalse();
  }

  @Test
  void aBackwardFlybackDiodeIsAShort() {
    Wiring wiring =
        new Solder()
            .line("A")
            .relay("K1", Solder.pt(), "A", GROUND)
            .diode("K1.flyback", "A", GROUND)
            .wiring();
    CircuitProbe probe = CircuitProbe.of(wiring, 1);
    probe.advance(100 * MS);
    assertThat(probe.circuit.supplyTripped()).isFalse();
    probe.drive(1);
    probe.advance(103 * MS);
    assertThat(probe.circuit.supplyTripped()).isTrue();
  }

  @Test
  void aCardThatIsAShortFromTheStartIsFoundTripped() {
    Wiring wiring = new Solder().line("A").wire("W1", PLUS, GROUND).wiring();
    assertThat(CircuitProbe.of(wiring, 1).circuit.supplyTripped()).isTrue();
    Wiring diode = new Solder().line("A").diode("D1", PLUS, GROUND).wiring();
    assertThat(CircuitProbe.of(diode, 1).circuit.supplyTripped()).isTrue();
    Wiring stuck = new Solder().line("A").wire("W1", "A", GROUND).wiring();
    CircuitProbe probe = CircuitProbe.of(stuck, 1);
    probe.drive(1);
    probe.advance(3 * MS);
    assertThat(probe.circuit.supplyTripped()).isTrue();
  }

  /** 12 V at 6 ohm and 1 kohm is 2.012 times a rating of 1 A: 10 s / (4.048 - 1) = 3.28 s. */
  @Test
  void aFuseOpensWhenTooMuchFlowsForLong() {
    Wiring wiring =
        new Solder()
            .line("A")
            .line("S")
            .fuse("F1", "IN", PLUS, 1000)
            .relay("K1", quick(5000), "A", GROUND, contact(PLUS, "hot", null))
            .resistor("R1", "hot", GROUND, 6)
            .resistor("R2", PLUS, "S", 10)
            .wiring("IN");
    CircuitProbe probe = CircuitProbe.of(wiring, 1);
    probe.drive(1);
    probe.advance(3270 * MS);
    assertThat(probe.circuit.warnings().blownFuses()).isEmpty();
    assertThat(probe.circuit.level(1)).isTrue();
    probe.advance(3290 * MS);
    assertThat(probe.circuit.warnings().blownFuses()).containsExactly("F1");
    assertThat(probe.circuit.level(1)).isFalse();
    assertThat(probe.circuit.supplyTripped()).isFalse();
    assertThat(probe.circuit.isEnergised(0)).as("the fixture feeds it past the fuse").isTrue();
  }

  /** Two fuses side by side share 2.4 A; behind one of them a third carries its own load alone. */
  @Test
  void fusesThatShareAreLoadedByHalf() {
    Wiring wiring =
        new Solder()
            .line("S")
            .fuse("F1", "IN", PLUS, 1000)
            .fuse("F2", "IN", PLUS, 1500)
            .fuse("F3", PLUS, "far", 500)
            .resistor("R1", PLUS, GROUND, 6)
            .resistor("R2", "far", GROUND, 30)
            .wiring("IN");
    CircuitProbe probe = CircuitProbe.of(wiring, 1);
    assertThat(probe.circuit.warnings().blownFuses()).isEmpty();
    // F1 has 1.2 times its rating: 10 s / 0.44 = 22.7 s, 5 s of them before time 0
    probe.advance(17_700 * MS);
    assertThat(probe.circuit.warnings().blownFuses()).isEmpty();
    // then F2 alone has 1.6 times: another 6.4 s
    probe.advance(17_800 * MS);
    assertThat(probe.circuit.warnings().blownFuses()).containsExactly("F1");
    probe.advance(24_000 * MS);
    assertThat(probe.circuit.warnings().blownFuses()).containsExactly("F1");
    probe.advance(24_300 * MS);
    assertThat(probe.circuit.warnings().blownFuses()).containsExactly("F1", "F2");
    assertThat(probe.circuit.supplyMicroamps()).isZero();
  }
}
