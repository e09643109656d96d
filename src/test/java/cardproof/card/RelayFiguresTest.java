package cardproof.card;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class RelayFiguresTest {
  @Test
  void theFloorIsFiveQuartersOfTheLongestSilentChain() {
    // 1.25 x 2 x (18 + 8) ms, worked by hand.
    assertThat(new RelayFigures(2, 15_000, 18_000, 8_000).quietFloorUs()).isEqualTo(65_000);
  }

  @Test
  void theSlowerOfOperateAndReleaseCountsAndTheFloorIsRoundedUp() {
    assertThat(new RelayFigures(1, 20_001, 3_000, 1_000).quietFloorUs()).isEqualTo(26_252);
  }
}
