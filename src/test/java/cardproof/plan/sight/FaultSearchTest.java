package cardproof.plan.sight;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.Sharing;
import cardproof.card.TestCards;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What follows was worked out by hand. */
class FaultSearchTest {
  private static List<String> left(FaultSearch search) {
    return search.left().stream().map(Object::toString).toList();
  }

  private static void take(FaultSearch search, long[]... words) {
    for (long[] word : words) {
      search.take(word);
    }
  }

  private static long[] word(long... levels) {
    return levels;
  }

  @Test
  void aLoadLineThatIsDeadShowsOnlyWhenTwoWordsHaveBeenLoaded() {
    Card card =
        TestCards.card()
            .input("D", 1)
            .input("LD", 1)
            .output("Q", 1, "R")
            .state("R", 1, "0bx", "LD ? D : R")
            .build();
    FaultSearch search = new FaultSearch(card);
    take(search, word(1, 0, 0), word(1, 1, 0));
    // the register may have come up with a 1 in it
    assertThat(left(search)).contains("LD stuck at ground").doesNotContain("D stuck at ground");
    take(search, word(1, 0, 0), word(0, 0, 0));
    assertThat(left(search)).doesNotContain("LD stuck at supply");
    take(search, word(0, 1, 0));
    assertThat(left(search)).isEmpty();
  }

  @Test
  void aLineOfASharedBusShowsWhatTheCardPutsThere() {
    Card card =
        TestCards.card().input("SEL", 1).shared("D", 2, Sharing.WIRED_OR, "SEL ? 2 : 0").build();
    FaultSearch search = new FaultSearch(card);
    search.take(word(0, 0));
    assertThat(left(search))
        .containsExactlyInAnyOrder(
            "SEL stuck at ground",
            "D[0] stuck at ground",
            "D[1] stuck at ground",
            "D[0] exchanged with D[1]");
    search.take(word(1, 0));
    assertThat(left(search)).containsExactly("D[0] stuck at ground");
    search.take(word(0, 1));
    assertThat(left(search)).isEmpty();
  }

  @Test
  void patternsWithTwoDriversOnALineAreNotProposed() {
    Card card = TestCards.card().input("SEL", 1).shared("D", 1, Sharing.WIRED_OR, "SEL").build();
    FaultSearch search = new FaultSearch(card);
    assertThat(search.wouldFind(List.of(word(1, 1))).isEmpty()).isTrue();
    assertThat(search.wouldFind(List.of(word(0, 1))).isEmpty()).isFalse();
  }

  @Test
  void triesLeaveTheCardAsItIs() {
    Card card =
        TestCards.card()
            .input("D", 4)
            .input("LD", 1)
            .output("Q", 4, "R")
            .state("R", 4, "0", "LD ? D : R")
            .build();
    FaultSearch search = new FaultSearch(card);
    search.take(word(5, 1, 0));
    search.take(word(5, 0, 0));
    List<LineFault> before = search.left();
    search.wouldFind(List.of(word(0xF, 1, 0), word(0, 0, 0)));
    FaultSearch copy = search.copy();
    copy.take(word(0xA, 1, 0));
    assertThat(search.left()).isEqualTo(before);
    assertThat(copy.left()).hasSizeLessThan(before.size());
    search.take(word(5, 0, 0)); // still 5: nothing moves, and nothing more is found
    assertThat(search.left()).isEqualTo(before);
  }

  @Test
  void aFaultThatKeepsTheCardFromComingToRestIsFound() {
    Card card =
        TestCards.card()
            .input("GO", 1)
            .input("STOP", 1)
            .output("Q", 1, "R")
            .state("R", 1, "0", "GO & ~STOP ? ~R : R")
            .build();
    FaultSearch search = new FaultSearch(card);
    search.take(word(0, 0, 0));
    assertThat(left(search)).doesNotContain("GO stuck at supply");
    search.take(word(1, 1, 0));
    assertThat(left(search)).doesNotContain("STOP stuck at ground");
  }

  @Test
  void whatIsReadByNothingIsUnseeableHoweverManyLinesThereAre() {
    Card card = TestCards.card().input("A", 60).input("U", 2).output("Y", 1, "&A").build();
    Unseeable unseeable = Unseeable.among(card, LineFault.of(card));
    assertThat(unseeable.proved().stream().map(Object::toString))
        .containsExactlyInAnyOrder(
            "U[0] stuck at ground",
            "U[0] stuck at supply",
            "U[1] stuck at ground",
            "U[1] stuck at supply",
            "U[0] exchanged with U[1]");
    assertThat(unseeable.witnesses()).isEmpty();
  }
}
