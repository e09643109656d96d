package cardproof.sim.circuit;

import static cardproof.sim.circuit.Solder.GROUND;
import static cardproof.sim.circuit.Solder.typicalMs;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cardproof.card.Supply;
import cardproof.card.wiring.Figure;
import cardproof.card.wiring.RelayType;
import cardproof.card.wiring.Wiring;
import java.util.BitSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * A simulated relay against its data sheet. Times as MIL-R-5757J has them: from the step input to
 * closure of all normally open contacts, bounce excluded; bounce from first make until making and
 * breaking ends.
 */
class RelaySheetTest {
  private static final int UNITS = 60;
  private static final int OPERATIONS = 5;
  private static final double NS_PER_US = 1000;

  /** TE/Schrack PT, Omron MY4 and Finder 55.34, 4-pole, 12 V: their data sheets. */
  static Stream<Arguments> sheets() {
    RelayType omron = Solder.type("MY4", 12_000, 165, most(20), most(20), most(60), 0, 0);
    RelayType finder =
        Solder.type("55.34", 12_000, 144, typicalMs(9), typicalMs(3), typicalMs(9), 1, 3);
    return Stream.of(Arguments.of(Solder.pt()), Arguments.of(omron), Arguments.of(finder));
  }

  private static Figure most(long ms) {
    return Figure.most(ms * 1000);
  }

  @ParameterizedTest
  @MethodSource("sheets")
  void keepsToItsSheet(RelayType type) {
    double operateMs = 0;
    double releaseMs = 0;
    for (int unit = 0; unit < UNITS; unit++) {
      OneRelay plain = new OneRelay(OneRelay.soldered(type).wiring(), unit);
      OneRelay withDiode =
          new OneRelay(OneRelay.soldered(type).diode("D1", GROUND, "A").wiring(), unit);
      for (int i = 0; i < OPERATIONS; i++) {
        operateMs += check(plain.operate(), type.operate(), type.bounceNo());
        releaseMs += check(plain.release(), type.release(), type.bounceNc());
        check(withDiode.operate(), type.operate(), type.bounceNo());
        check(withDiode.release(), type.releaseWithDiode(), type.bounceNc());
      }
    }
    assertThat(operateMs / UNITS / OPERATIONS).isCloseTo(middleMs(type.operate()), within(0.5));
    assertThat(releaseMs / UNITS / OPERATIONS).isCloseTo(middleMs(type.release()), within(0.5));
  }

  private static double middleMs(Figure figure) {
    return (figure.leastUs() + figure.mostUs()) / 2.0 / 1000;
  }

  private static double check(OneRelay.Operation done, Figure figure, Figure bounce) {
    assertThat(done.ns() / NS_PER_US).isBetween((double) figure.leastUs(), figure.mostUs() + 1.0);
    for (long ns : done.bounceNs()) {
      assertThat(ns / NS_PER_US).isBetween((double) bounce.leastUs(), bounce.mostUs() + 1.0);
    }
    assertThat(done.firstMakeNs() - done.firstBreakNs())
        .as("break before make, with at least 100 us between")
        .isGreaterThanOrEqualTo(100_000);
    return done.ns() / NS_PER_US / 1000;
  }

  /** TE/Schrack PT: a diode across the coil makes 18 ms of 10 ms. */
  @Test
  void aDiodeSlowsRelease() {
    double plain = 0;
    double slow = 0;
    for (int unit = 0; unit < UNITS; unit++) {
      plain += releaseMs(OneRelay.soldered(Solder.pt()).wiring(), unit);
      Wiring withDiode = OneRelay.soldered(Solder.pt()).diode("D1", GROUND, "A").wiring();
      slow += releaseMs(withDiode, unit);
    }
    assertThat(plain / UNITS).isCloseTo(10, within(0.4));
    assertThat(slow / UNITS).isCloseTo(18, within(0.7));
  }

  @Test
  void aDiodeThatIsOpenOrSeriesWithNothingDoesNot() {
    double plain = releaseMs(OneRelay.soldered(Solder.pt()).wiring(), 7);
    assertThat(releaseMs(OneRelay.soldered(Solder.pt()).diode("D1", "X", "A").wiring(), 7))
        .isEqualTo(plain);
  }

  /**
   * TE application note 13C3311 (from memory), release in ms with what across the coil: nothing
   * 1.5, 680 ohm 2.3, 470 2.8, 330 3.2, 220 3.7, 100 5.5, 82 6.1, a diode 9.8. The coil's own
   * resistance, which it does not give here, is taken as 88 ohm.
   */
  @ParameterizedTest
  @CsvSource({"680, 2.3", "470, 2.8", "330, 3.2", "220, 3.7", "100, 5.5", "82, 6.1"})
  void aResistorAcrossTheCoilSlowsReleaseByItsSize(double ohms, double ms) {
    RelayType type =
        Solder.type(
            "13C3311",
            12_000,
            88,
            typicalMs(5),
            new Figure(1500, 1500, 1500),
            new Figure(9800, 9800, 9800),
            0,
            0);
    double sum = 0;
    for (int unit = 0; unit < UNITS; unit++) {
      Wiring wiring = OneRelay.soldered(type).resistor("R1", "A", GROUND, ohms).wiring();
      sum += releaseMs(wiring, unit);
    }
    assertThat(sum / UNITS).isCloseTo(ms, within(0.1 * ms));
  }

  /** Coils of the sheets: ohms, volts, and the current or power that they state. */
  @ParameterizedTest
  @CsvSource({
    "192, 12000, 62.5, 750", // TE/Schrack PT
    "777, 24000, 30.9, 741", // TE/Schrack PT
    "165, 12000, 72.7, 873", // Omron MY4 states the current
    "662, 24000, 36.3, 870" // Omron MY4 states the current
  })
  void aCoilTakesWhatItsSheetSays(double ohms, long millivolts, double milliamps, double mw) {
    RelayType type =
        Solder.type("K", millivolts, ohms, typicalMs(15), typicalMs(10), typicalMs(18), 1, 1);
    Wiring wiring = new Solder().line("A").relay("K1", type, "A", GROUND).wiring();
    RelayCircuit circuit =
        new RelayCircuit(
            FaultyWiring.always(wiring),
            new Supply(millivolts, 1000),
            new BitSet(),
            RelayCircuit.WATCH_OHMS,
            1);
    assertThat(circuit.supplyMicroamps()).isZero();
    circuit.drive(0, BitSet.valueOf(new long[] {1}));
    assertThat(circuit.supplyMicroamps() / 1e3).isCloseTo(milliamps, within(0.1));
    assertThat(circuit.supplyMicroamps() / 1e3 * millivolts / 1e3).isCloseTo(mw, within(3.0));
    assertThat(circuit.energisedCoils()).isEqualTo(1);
    assertThat(circuit.isEnergised(0)).isTrue();
  }

  private static double releaseMs(Wiring wiring, long unit) {
    OneRelay relay = new OneRelay(wiring, unit);
    relay.operate();
    return relay.release().ns() / NS_PER_US / 1000;
  }
}
