package cardproof.card.compose;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.BehaviourModel;
import cardproof.card.Card;
import cardproof.card.TestCards;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.Size;

/**
 * Three cards in a row behave joined as they do each by itself with a person carrying words from
 * one to the next.
 */
class ComposedBehaviourProperties {
  private static final List<String> WORDS =
      List.of("A + B", "A ^ R", "{A[3:0], B[7:4]}", "~A & B", "R + 1", "A[0] ? B : R", "R");
  private static final List<String> NEXTS = List.of("LD ? A : R", "LD ? B : R", "LD ? A + B : R");

  private static Card card(Random random) {
    return TestCards.card()
        .input("A", 8)
        .input("B", 8)
        .input("LD", 1)
        .output("Y", 8, WORDS.get(random.nextInt(WORDS.size())))
        .output("Z", 8, WORDS.get(random.nextInt(WORDS.size())))
        .state("R", 8, "0", NEXTS.get(random.nextInt(NEXTS.size())))
        .build();
  }

  @Property(tries = 300)
  void threeCardsInARowDoJoinedWhatTheyDoOneByOne(
      @ForAll long seed, @ForAll @Size(min = 1, max = 30) List<Integer> drives) {
    Random random = new Random(seed);
    Card first = card(random);
    Card middle = card(random);
    Card last = card(random);
    Card whole =
        new Joining()
            .card("first", first)
            .card("middle", middle)
            .card("last", last)
            .cable("first.Y", "middle.A")
            .cable("first.Z", "middle.B")
            .cable("middle.Y", "last.A")
            .cable("first.Y", "last.B")
            .leaves("A", "first.A")
            .leaves("B", "first.B")
            .leaves("LD1", "first.LD")
            .leaves("LD2", "middle.LD")
            .leaves("LD3", "last.LD")
            .leaves("M", "middle.Z")
            .leaves("Y", "last.Y")
            .leaves("Z", "last.Z")
            .whole();
    BehaviourModel joined = new BehaviourModel(whole);
    BehaviourModel one = new BehaviourModel(first);
    BehaviourModel two = new BehaviourModel(middle);
    BehaviourModel three = new BehaviourModel(last);
    for (int drive : drives) {
      long a = drive & 0xFF;
      long b = drive >>> 8 & 0xFF;
      // one load line at a time, or registers race for what they take
      long load = drive >>> 16 & 3;
      long[] loads = {load == 1 ? 1 : 0, load == 2 ? 1 : 0, load == 3 ? 1 : 0};
      joined.apply(new long[] {a, b, loads[0], loads[1], loads[2], 0, 0, 0});
      one.apply(new long[] {a, b, loads[0], 0, 0});
      two.apply(new long[] {one.value(3), one.value(4), loads[1], 0, 0});
      three.apply(new long[] {two.value(3), one.value(3), loads[2], 0, 0});
      assertThat(new long[] {joined.value(5), joined.value(6), joined.value(7)})
          .containsExactly(two.value(4), three.value(3), three.value(4));
      assertThat(joined.unknown(5) | joined.unknown(6) | joined.unknown(7)).isZero();
    }
  }
}
