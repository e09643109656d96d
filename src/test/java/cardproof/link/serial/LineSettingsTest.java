package cardproof.link.serial;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;

class LineSettingsTest {
  @Test
  void aPieceIsAtMostAnEighthOfASecondOfLine() {
    assertThat(LineSettings.withoutReset(250_000).pieceBytes()).isEqualTo(512);
    assertThat(LineSettings.withoutReset(9600).pieceBytes()).isEqualTo(120);
    assertThat(LineSettings.withoutReset(50).pieceBytes()).isEqualTo(1);
  }

  @Test
  void noRateIsNoLine() {
    assertThatThrownBy(() -> LineSettings.withoutReset(0)).hasMessageContaining("0 baud");
  }
}
