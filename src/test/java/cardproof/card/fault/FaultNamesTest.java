package cardproof.card.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import cardproof.card.Card;
import cardproof.card.TestCards;
import cardproof.text.RefusedException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class FaultNamesTest {
  private static final Card CARD =
      TestCards.card().input("A", 4).input("CI", 1).output("S", 4, "A + CI").build();

  @ParameterizedTest
  @ValueSource(
      strings = {
        "S[3] stuck at ground",
        "CI stuck at supply",
        "A[0] exchanged with A[1]",
        "CI exchanged with A[3]"
      })
  void whatIsReadIsWrittenTheSame(String name) {
    assertThat(FaultNames.parse(name, CARD).name()).isEqualTo(name);
  }

  @Test
  void ofManyLinesOnlySomeAreListed() {
    Card wide = TestCards.card().input("A", 30).output("S", 10, "A").build();
    assertThatThrownBy(() -> FaultNames.parse("nowhere stuck at ground", wide))
        .isInstanceOf(RefusedException.class)
        .hasMessageEndingWith("A[10], A[11] and 28 more.");
  }

  @Test
  void blanksAndCaseOfTheWordsDoNotMatter() {
    assertThat(FaultNames.parse("  S[3]   Stuck  AT Supply ", CARD))
        .isEqualTo(new LineStuck(CARD.line("S[3]").orElseThrow(), true));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          S[7] stuck at ground     | card test has no line 'S[7]'
          S3 stuck at ground       | Did you mean 'S[3]'?
          s3 stuck at ground       | Did you mean 'S[3]'?
          S4 stuck at ground       | Known: A[0], A[1]
          S[3] stuck at grund      | Did you mean 'ground'?
          S[3] exchanged with S[3] | S[3] is named twice
          S[3] exchanged with A[3] | do not go the same way
          S[3] broken              | this is no fault name
          stuck at ground          | this is no fault name
          """)
  void whatIsWrongIsSaid(String name, String said) {
    assertThatThrownBy(() -> FaultNames.parse(name, CARD))
        .isInstanceOf(RefusedException.class)
        .hasMessageContaining(said);
  }
}
