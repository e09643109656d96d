package cardproof.files;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.fixture.FixtureProfile;
import cardproof.text.Position;
import org.junit.jupiter.api.Test;

class FixtureFileTest {
  private static FixtureProfile read(String name) {
    return FixtureFile.read(Corpus.GOOD.resolve("fixture").resolve(name + ".yaml")).value();
  }

  private static Position start(String name) {
    String file = Corpus.GOOD.resolve("fixture").resolve(name + ".yaml").toString();
    return new Position(file, 1, 1);
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
                true,
                120,
                115_200,
                FixtureProfile.DEFAULT_SAMPLING_NS,
                FixtureProfile.DEFAULT_SLOTS,
                start("serial")));
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
  void takesDefaultsForWhatIsNotSaid() {
    FixtureProfile profile = read("least");
    assertThat(profile.pushPull()).isFalse();
    assertThat(profile.driveMilliamps()).isZero();
    assertThat(profile.baud()).isEqualTo(FixtureProfile.DEFAULT_BAUD);
  }
}
