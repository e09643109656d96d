package cardproof.files;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.CardReview;
import cardproof.card.wiring.review.Chains;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/**
 * The real pair of counter cards: its loop of 48 relays is never closed at any one position of LD.
 */
class HourChainsTest {
  private Card hour;
  private Chains chains;

  @BeforeEach
  void read() {
    hour = CardFile.read(Path.of("vectors/hour/card.yaml")).value();
    chains = CardReview.chains(hour).orElseThrow();
  }

  /**
   * By hand. LD falls: PL, GR, then M[0] at the latest (GM let go of it at the same stage), R[0],
   * X[0], and the carries C[1] to C[11]: 16. LD rises: PL, GR, R[0], X[0], C[1] to C[11], M[11]: 16
   * too.
   */
  @Test
  void theLongestChainGoesThroughEitherHalfOnce() {
    assertThat(chains.longest().stages()).isEqualTo(16);
    assertThat(chains.longest().relays())
        .startsWith("keep.PL", "keep.GM[0]", "keep.M[0]", "keep.R[0]", "chain.BIT[0].X");
  }

  /**
   * By hand. All of R shows at its own Q whenever it moves, so before Q moves are silent at most
   * PL, GM, M and R. X has only R before it. C[i] shows at N[i] once X[i] has moved for the last
   * time, which it has after PL, GM, M, R and X: 5 stages. So a carry that passes unseen does it
   * within 5 stages, and what it moves, the next carry or M, ends a silence of 6.
   */
  @Test
  void noSilenceIsLongerThanSixStages() {
    assertThat(chains.unseen().stages()).isEqualTo(6);
    assertThat(chains.unseenByOutput().get("Q[0]").relays())
        .containsExactly("keep.PL", "keep.GM[0]", "keep.M[0]", "keep.R[0]");
    assertThat(chains.unseenByOutput().get("Q[11]").stages()).isEqualTo(4);
    assertThat(chains.unseenByOutput().get("N[0]").stages()).isEqualTo(1);
    assertThat(chains.unseenByOutput().get("N[11]").stages()).isEqualTo(6);
  }

  /** 1.25 x 6 x (18 ms + 8 ms). */
  @Test
  void theQuietFloorLeavesRoomWithinTheSettleLimit() {
    assertThat(hour.relays().quietFloorUs()).isEqualTo(195_000);
    assertThat(hour.limits().quietUs()).isLessThan(hour.limits().settleUs());
  }

  /** The stages of the two cards happen to add up to six as well; only that is said aloud. */
  @Test
  void theFloorFollowsFromTheWiringAndIsNotAssumed() {
    assertThat(CardFile.read(Path.of("vectors/hour/card.yaml")).warnings()).isEmpty();
  }
}
