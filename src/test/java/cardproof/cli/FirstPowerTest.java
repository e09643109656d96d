package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.wiring.review.Currents;
import cardproof.files.CardFile;
import cardproof.fixture.FixtureProfile;
import java.nio.file.Path;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

class FirstPowerTest {
  private static final Card SUM = CardFile.read(Path.of("vectors", "sum", "card.yaml")).value();

  @Test
  void theFirstLimitIsHardlyMoreThanTheCardDrawsAtRest() {
    FirstPower power = FirstPower.of(SUM, currents(OptionalDouble.of(0), 1_000));
    assertThat(power.firstLimitMilliamps()).isEqualTo(50);
    assertThat(power.workingLimitMilliamps()).isEqualTo(1_200);
    assertThat(FirstPower.of(SUM, currents(OptionalDouble.of(500), 1_000)).firstLimitMilliamps())
        .isEqualTo(600);
  }

  @Test
  void noLimitIsAboveWhatTheCardAllows() {
    FirstPower power = FirstPower.of(SUM, currents(OptionalDouble.of(2_900), 9_000));
    assertThat(power.workingLimitMilliamps()).isEqualTo(3_000);
    assertThat(power.firstLimitMilliamps()).isEqualTo(3_000);
  }

  @Test
  void aCardThatDoesNotRestIsToldSo() {
    FirstPower power = FirstPower.of(SUM, currents(OptionalDouble.empty(), 1_000));
    assertThat(power.figures().get(0)).contains("not known");
    assertThat(power.firstLimitMilliamps()).isEqualTo(50);
  }

  @Test
  void thePromptSaysTheSameFiguresAsTheCheck() {
    String prompt =
        String.join("\n", PowerPrompt.checks(SUM, FixtureProfile.serialBoard(255, 255)));
    String check = Cli.run("check", Path.of("vectors", "sum", "card.yaml")).out();
    assertThat(prompt).contains("1. A fuse is in the supply lead.", "cannot switch or see");
    assertThat(prompt).contains("Set its limit to 50 mA for first power");
    assertThat(check).contains("set its limit to 50 mA for first power");
  }

  private static Currents currents(OptionalDouble rest, double coils) {
    return new Currents(coils, 0, 0, rest);
  }
}
