package cardproof.files;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.fixture.AtReset;
import cardproof.fixture.DriveKind;
import cardproof.fixture.DriveSide;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.SenseRange;
import cardproof.fixture.SupplySide;
import cardproof.fixture.SupplySwitch;
import cardproof.fixture.WatchSide;
import cardproof.text.Position;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class FixtureFileTest {
  private static FixtureProfile read(String name) {
    return FixtureFile.read(Corpus.GOOD.resolve("fixture").resolve(name + ".yaml")).value();
  }

  private static Position at(int line, int column) {
    String file = Corpus.GOOD.resolve("fixture").resolve("serial.yaml").toString();
    return new Position(file, line, column);
  }

  @Test
  void readsABoardOnAPort() {
    assertThat(read("serial"))
        .isEqualTo(
            new FixtureProfile(
                "plain 32+32 board",
                "the board in the green box",
                false,
                32,
                24,
                new DriveSide(
                    DriveKind.PUSH_PULL, 0, 0, 120, 0, 0, 0, 0, AtReset.NOT_STATED, at(4, 9)),
                WatchSide.unstated(at(5, 10)),
                SupplySide.NONE,
                115_200,
                FixtureProfile.DEFAULT_SAMPLING_NS,
                FixtureProfile.DEFAULT_SLOTS,
                at(1, 1)));
  }

  @Test
  void readsASimulatedOne() {
    FixtureProfile profile = read("simulated");
    assertThat(profile.simulated()).isTrue();
    assertThat(profile.drives()).isEqualTo(32);
    assertThat(profile.samplingNs()).isEqualTo(12_500);
    assertThat(profile.slots()).isEqualTo(4);
    assertThat(profile.title()).isEqualTo("rehearsal");
  }

  @Test
  void readsTheElectricalTruth() {
    FixtureProfile profile = read("electrical");
    assertThat(profile.drive())
        .usingRecursiveComparison()
        .ignoringFields("at")
        .isEqualTo(
            new DriveSide(
                DriveKind.PUSH_PULL,
                5_000,
                30_000,
                120,
                8,
                600,
                20,
                15,
                AtReset.UNDEFINED,
                at(1, 1)));
    assertThat(profile.watch())
        .usingRecursiveComparison()
        .ignoringFields("at")
        .isEqualTo(new WatchSide(true, 3_000, 8_000, 0, 4_700, 1_500, 30_000, at(1, 1)));
    assertThat(profile.supply())
        .isEqualTo(
            new SupplySide(
                SupplySwitch.NORMALLY_OPEN,
                Optional.of(new SenseRange(5_000, 5)),
                Optional.of(new SenseRange(30_000, 0))));
    assertThat(profile.watch().milliampsAt(11_750)).isEqualTo(2.5); // Ohm's law
  }

  @Test
  void takesDefaultsForWhatIsNotSaid() {
    FixtureProfile profile = read("least");
    assertThat(profile.drive().kind()).isEqualTo(DriveKind.SOURCE);
    assertThat(profile.supply()).isEqualTo(SupplySide.NONE);
    assertThat(profile.watch().statesLoad()).isFalse();
    assertThat(profile.driveMilliamps()).isZero();
    assertThat(profile.baud()).isEqualTo(FixtureProfile.DEFAULT_BAUD);
  }
}
