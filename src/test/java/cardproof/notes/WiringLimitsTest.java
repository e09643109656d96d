package cardproof.notes;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cardproof.files.FixtureFile;
import cardproof.fixture.DriveSide;
import cardproof.fixture.SenseRange;
import cardproof.fixture.SupplySide;
import cardproof.fixture.WatchSide;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * That the parts named in wiring.md do what they are for, worked out from the data sheets' figures
 * and not from the page; and that the page and the profiles state no more than comes out. Sources
 * of the figures stand beside them.
 */
class WiringLimitsTest {
  private static final Page PAGE = Page.read("wiring.md");

  // Common practice: a bench of 12 V, give or take 20 %.
  private static final double SUPPLY_V = 12;
  private static final double LEAST_SUPPLY_V = 9.6;
  private static final double MOST_SUPPLY_V = 14.4;
  // USB 2.0, 7.3.2 (from memory): 4.75 V to 5.25 V; a board's own fuse may take a quarter of a
  // volt.
  private static final double LEAST_VCC_V = 4.5;
  private static final double MOST_VCC_V = 5.25;
  // ATmega2560 and ATmega328P data sheets, DC characteristics, VIL and VIH at 2.4 V to 5.5 V (from
  // memory).
  private static final double READS_0 = 0.3;
  private static final double READS_1 = 0.6;
  // The same, absolute maximum ratings: half a volt above a supply of 5 V (from memory).
  private static final double MOST_PIN_V = 5.5;
  // TE Schrack PT data sheet: 12 V coil 192 ohm, least contact load 10 mA. Operates at 75 %: common
  // practice.
  private static final double COIL_OHM = 192;
  private static final double CONTACT_A = 0.010;
  private static final double OPERATES = 0.75;
  private static final double PART = 0.01; // metal film, 1 %
  private static final double SLOWEST_FILTER_S = 10e-6;

  @TempDir private Path folder;

  private record Range(double least, double most) {}

  /** What the line's voltage is divided by: from a resistor above to one below, each 1 % off. */
  private static Range divider(double above, double below) {
    return new Range(
        1 + above * (1 - PART) / (below * (1 + PART)),
        1 + above * (1 + PART) / (below * (1 - PART)));
  }

  private static double parallel(double... ohms) {
    double sum = 0;
    for (double ohm : ohms) {
      sum += 1 / ohm;
    }
    return 1 / sum;
  }

  @Test
  void dividerKeepsThePinWithinItsLimits() {
    Range divider = divider(10e3, 5.6e3);
    assertThat(MOST_SUPPLY_V / divider.least()).isLessThan(MOST_PIN_V);
    assertThat(LEAST_SUPPLY_V / divider.most()).isGreaterThan(READS_1 * MOST_VCC_V);
    assertThat(parallel(10e3, 5.6e3) * 1e-9).isLessThan(SLOWEST_FILTER_S);
    double load = parallel(1e3, 15.6e3);
    assertThat(LEAST_SUPPLY_V / load).isGreaterThanOrEqualTo(CONTACT_A);
    WatchSide stated = stated(1);
    thresholds(
        stated, READS_0 * LEAST_VCC_V * divider.least(), READS_1 * MOST_VCC_V * divider.most());
    assertThat(stated.loadOhms()).isCloseTo(load, within(5.0));
    assertThat(power(stated.mostMillivolts() / 1e3, 1e3))
        .as("R1 is of half a watt")
        .isLessThan(0.5);
    assertThat(power(MOST_SUPPLY_V, 1e3)).as("half of what R1 may take").isLessThan(0.25);
  }

  @Test
  void dividerFor24Volts() {
    Range divider = divider(27e3, 5.6e3);
    assertThat(2 * MOST_SUPPLY_V / divider.least()).isLessThan(MOST_PIN_V);
    assertThat(2 * LEAST_SUPPLY_V / divider.most()).isGreaterThan(READS_1 * MOST_VCC_V);
    assertThat(parallel(27e3, 5.6e3) * 1e-9).isLessThan(SLOWEST_FILTER_S);
    assertThat(power(2 * MOST_SUPPLY_V, 2.2e3)).as("half of what R1 may take").isLessThan(0.5);
    Matcher stated =
        Pattern.compile("\\*\\*24 V cards\\*\\*: R1[^`]*`([^`]*)`").matcher(PAGE.text());
    assertThat(stated.find()).isTrue();
    WatchSide watch = profile(stated.group(1));
    thresholds(
        watch, READS_0 * LEAST_VCC_V * divider.least(), READS_1 * MOST_VCC_V * divider.most());
    assertThat(watch.loadOhms()).isCloseTo(parallel(2.2e3, 32.6e3), within(50.0));
    assertThat(watch.mostMillivolts()).isGreaterThanOrEqualTo(2 * 14_400);
  }

  /**
   * Kirchhoff's current law at the plus input; LM339 offset 5 mV, TL431A 2.495 V 1 % (data sheets,
   * from memory).
   */
  @Test
  void comparatorTellsSneakLevelsFromFullOnes() {
    double falling = Double.MAX_VALUE;
    double rising = 0;
    for (int corner = 0; corner < 1 << 7; corner++) {
      double above = 12e3 * off(corner, 0);
      double below = 4.7e3 * off(corner, 1);
      double back = 100e3 * off(corner, 2);
      double pullUp = 4.7e3 * off(corner, 3);
      double input = 2.495 * off(corner, 4) + ((corner >> 5 & 1) == 0 ? 0.005 : -0.005);
      double vcc = (corner >> 6 & 1) == 0 ? LEAST_VCC_V : MOST_VCC_V;
      rising = Math.max(rising, input + above * (input / below + input / back));
      falling =
          Math.min(falling, input + above * (input / below + (input - vcc) / (back + pullUp)));
    }
    WatchSide stated = stated(2);
    thresholds(stated, falling, rising);
    assertThat(stated.highMillivolts() / 1e3).isLessThan(LEAST_SUPPLY_V);
    // Common practice: sneak paths leave a line at up to two thirds of the supply.
    assertThat(stated.lowMillivolts() / 1e3).isGreaterThan(SUPPLY_V * 2 / 3);
    assertThat(parallel(12e3, 4.7e3, 100e3) * 1e-9 + 1.3e-6).isLessThan(SLOWEST_FILTER_S);
    assertThat(stated.loadOhms()).isCloseTo(parallel(1e3, 16.7e3), within(5.0));
  }

  private static double off(int corner, int bit) {
    return (corner >> bit & 1) == 0 ? 1 - PART : 1 + PART;
  }

  /**
   * PC817 data sheet (from memory): 1.2 V forward; 0.93 V where it only begins and is warm; 140 %
   * taken.
   */
  @Test
  void optoCoupler() {
    double forward = 1.2;
    double wet = (LEAST_SUPPLY_V - forward) / 820;
    assertThat(wet).isGreaterThanOrEqualTo(CONTACT_A);
    double needed = READS_1 * MOST_VCC_V / 1e3 / 1.4;
    assertThat(wet - forward / 180).as("diode current at the least supply").isGreaterThan(needed);
    assertThat((MOST_SUPPLY_V - forward) / 820 - forward / 180)
        .as("at most, of the 50 mA that it bears")
        .isLessThan(0.025);
    WatchSide stated = stated(3);
    thresholds(stated, 0.93 + 0.93 / 180 * 820, forward + (forward / 180 + needed) * 820);
    assertThat(stated.highMillivolts() / 1e3).isLessThan(LEAST_SUPPLY_V);
    assertThat(stated.loadMilliamps() / 1e3).isCloseTo((SUPPLY_V - forward) / 820, within(0.0005));
    assertThat(power(MOST_SUPPLY_V - forward, 820)).as("half of R1's half watt").isLessThan(0.25);
  }

  /**
   * TBD62783A taken as 3 ohm, resettable fuse 4.4 ohm, Darlington array 1.8 V (data sheets, from
   * memory).
   */
  @Test
  void coilsOperateBehindTheArrayAtTheLeastSupply() {
    double fuse = 4.4;
    assertThat(LEAST_SUPPLY_V * COIL_OHM / (COIL_OHM + 3 + fuse) / SUPPLY_V)
        .isGreaterThan(OPERATES);
    assertThat((LEAST_SUPPLY_V - 1.8) * COIL_OHM / (COIL_OHM + fuse) / SUPPLY_V)
        .as("behind a Darlington array")
        .isLessThan(OPERATES);
    DriveSide drives = FixtureFile.read(Path.of("fixtures", "m2560.yaml")).value().drive();
    assertThat(drives.groupMilliamps())
        .isGreaterThanOrEqualTo(Math.round(drives.groupSize() * 1e3 * SUPPLY_V / COIL_OHM));
    // Resettable fuses of 0.2 A trip sooner when warm: 60 % of it at most.
    assertThat(drives.milliamps()).isLessThanOrEqualTo(120);
  }

  /**
   * BC547: gain 110 at least; FQP27P06: gate 25 V, plateau 4 V, threshold 2 V (data sheets, from
   * memory).
   */
  @Test
  void singleTransistorsAreOffByThemselvesAndOnWhenTold() {
    double leakageAmps = 1e-6;
    assertThat(leakageAmps * 10e3).as("base with the pin floating").isLessThan(0.4 / 10);
    double base = (LEAST_VCC_V - 0.5 - 0.8) / 10e3 - 0.8 / 10e3;
    assertThat(MOST_SUPPLY_V / 5.7e3 / base).as("gain needed").isLessThan(110.0 / 5);
    assertThat(LEAST_SUPPLY_V * 4.7 / 5.7).as("gate when on").isGreaterThan(6);
    assertThat(MOST_SUPPLY_V * 4.7 / 5.7).as("gate at most").isLessThan(20);
    assertThat(2 * MOST_SUPPLY_V / 2).as("gate at most, 24 V cards").isLessThan(20);
    double lettingGoS = 4.7e3 * 1.4e-9 * Math.log(9.9 / 4) + 18e-9 / (4 / 4.7e3);
    assertThat(lettingGoS).as("against 10 ms of a relay").isLessThan(10e-3 / 300);
  }

  /** The profile's ranges are within what shunt, amplifier and converter give. */
  @Test
  void senseOfTheSupply() {
    double countA = 5.0 / 1024 / 20 / 0.05;
    assertThat(5.0 / 20 / 0.05).isCloseTo(5, within(1e-9));
    assertThat(SUPPLY_V / COIL_OHM / countA).as("counts for a coil").isGreaterThan(10);
    assertThat(parallel(33e3, 10e3)).as("ATmega data sheets, ADC input: 10 kohm").isLessThan(10e3);
    Matcher stated = Pattern.compile("`supply: (\\{.*?}})`").matcher(PAGE.text());
    assertThat(stated.find()).isTrue();
    SupplySide supply =
        FixtureFile.read(
                written("drives: {count: 1}\nwatches: {count: 1}\nsupply: " + stated.group(1)))
            .value()
            .supply();
    assertThat(supply.canCut()).isTrue();
    SenseRange current = supply.current().orElseThrow();
    assertThat(current.most()).isEqualTo(5000);
    assertThat(current.resolution() / 1e3).isBetween(countA, 2 * countA);
    SenseRange rail = supply.rail().orElseThrow();
    double endV = 5.0 * (33 + 10) / 10;
    assertThat(rail.most() / 1e3).isBetween(MOST_SUPPLY_V, endV);
    assertThat(rail.resolution() / 1e3).isBetween(endV / 1024, 2 * endV / 1024);
  }

  private static double power(double volts, double ohms) {
    return volts * volts / ohms;
  }

  /**
   * Low is stated no higher, and high no lower, than worked out; neither by more than a fifth of a
   * volt.
   */
  private static void thresholds(WatchSide stated, double low, double high) {
    assertThat(stated.lowMillivolts() / 1e3).as("low").isBetween(low - 0.2, low);
    assertThat(stated.highMillivolts() / 1e3).as("high").isBetween(high, high + 0.2);
  }

  /** The watch side that the page's table gives for one of its three ways. */
  private WatchSide stated(int column) {
    List<String> row =
        PAGE.table("Watches", "").rows().stream()
            .filter(cells -> cells.get(0).equals("put into the profile"))
            .findFirst()
            .orElseThrow();
    return profile(row.get(column).replace("`", ""));
  }

  private WatchSide profile(String keys) {
    return FixtureFile.read(written("drives: {count: 1}\nwatches: {count: 1, " + keys + "}"))
        .value()
        .watch();
  }

  private Path written(String sides) {
    try {
      return Files.writeString(
          folder.resolve("fixture.yaml"), "fixture: bench\nkind: serial\n" + sides + "\n");
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }
}
