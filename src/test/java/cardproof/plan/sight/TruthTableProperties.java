package cardproof.plan.sight;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.TestCards;
import java.util.List;
import java.util.function.IntUnaryOperator;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;

/**
 * Held against cards that are nothing but a truth table: what a fault does to one is worked out on
 * the table's bits here, with no model in between.
 */
final class TruthTableProperties {
  private static final int LINES = 4;
  private static final int WORDS = 1 << LINES;

  /** Line i of the card is bit i of the word: A[0], A[1], B, C. */
  private static Card card(int table) {
    return TestCards.card()
        .input("A", 2)
        .input("B", 1)
        .input("C", 1)
        .output("Y", 1, table + " >> {C, B, A} & 1")
        .build();
  }

  private static long[] levels(int word) {
    return new long[] {word & 3, word >> 2 & 1, word >> 3 & 1, 0};
  }

  private static IntUnaryOperator wordBehind(LineFault fault) {
    int line = fault.line().index();
    if (fault instanceof LineFault.Stuck stuck) {
      return word -> stuck.atSupply() ? word | 1 << line : word & ~(1 << line);
    }
    int other = ((LineFault.Exchanged) fault).other().index();
    return word ->
        word & ~(1 << line | 1 << other)
            | (word >> line & 1) << other
            | (word >> other & 1) << line;
  }

  private static boolean shows(int table, LineFault fault, int word) {
    return ((table >> word ^ table >> wordBehind(fault).applyAsInt(word)) & 1) != 0;
  }

  @Property
  void whatNoPlanCanFindIsProvedAndNothingElseIs(@ForAll @IntRange(max = 0xFFFF) int table) {
    Card card = card(table);
    List<LineFault> all = LineFault.of(card);
    assertThat(all).hasSize(2 * LINES + LINES * (LINES - 1) / 2);
    Unseeable unseeable = Unseeable.among(card, all);
    for (LineFault fault : all) {
      boolean seeable = false;
      for (int word = 0; word < WORDS; word++) {
        seeable |= shows(table, fault, word);
      }
      assertThat(unseeable.proved().contains(fault)).as("%s", fault).isEqualTo(!seeable);
      assertThat(unseeable.witnesses().containsKey(fault)).as("%s", fault).isEqualTo(seeable);
    }
  }

  @Property
  void aWordFindsExactlyWhatItShows(
      @ForAll @IntRange(max = 0xFFFF) int table, @ForAll @IntRange(max = WORDS - 1) int word) {
    FaultSearch search = new FaultSearch(card(table));
    List<LineFault> before = search.left();
    List<LineFault> found =
        search.wouldFind(List.of(levels(word))).stream().mapToObj(before::get).toList();
    assertThat(found)
        .containsExactlyElementsOf(before.stream().filter(f -> shows(table, f, word)).toList());
    search.take(levels(word));
    assertThat(search.left())
        .containsExactlyElementsOf(before.stream().filter(f -> !found.contains(f)).toList());
  }
}
