package cardproof.plan;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.Sharing;
import cardproof.card.TestCards;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** What each vector drives, and in which order vectors come. */
class DrivesTest {
  private static final int A = 0;
  private static final int B = 1;
  private static final int LD = 2;
  private static final int D = 4;
  private static final Card CARD =
      TestCards.card()
          .input("A", 4)
          .input("B", 4)
          .input("LD", 1)
          .output("S", 4, "A ^ B")
          .shared("D", 4, Sharing.WIRED_OR, "0")
          .build();

  private static List<Vector> vectors(PlanSketch sketch) {
    List<Vector> all = new ArrayList<>();
    sketch.plan().vectors().forEachRemaining(all::add);
    return all;
  }

  private static List<String> driven(PlanSketch sketch) {
    return vectors(sketch).stream().map(Vector::describe).toList();
  }

  private static PlanSketch plan() {
    return PlanSketch.of(CARD);
  }

  private static Generator words(Long... words) {
    return Generators.list(List.of(words));
  }

  @Test
  void theLastAxisChangesFastest() {
    PlanSketch plan = plan().step(s -> s.each("A", words(1L, 2L)).each("B", words(5L, 6L, 7L)));
    assertThat(vectors(plan))
        .extracting(v -> v.level()[A] * 16 + v.level()[B])
        .containsExactly(0x15L, 0x16L, 0x17L, 0x25L, 0x26L, 0x27L);
  }

  @Test
  void everyRowOfATableGoesWithEachElement() {
    PlanSketch plan =
        plan()
            .step(
                s ->
                    s.each("A", words(1L, 2L))
                        .row(Map.of("B", 8L), Map.of())
                        .row(Map.of("B", 9L), Map.of()));
    assertThat(vectors(plan))
        .extracting(v -> v.level()[A] * 16 + v.level()[B])
        .containsExactly(0x18L, 0x19L, 0x28L, 0x29L);
    assertThat(vectors(plan)).extracting(Vector::row).containsExactly(0, 1, 0, 1);
  }

  @Test
  void joinedBusesTakeOneWordTheFirstMostSignificant() {
    List<Vector> all = vectors(plan().step(s -> s.each("B LD A", words(0b1010_1_0011L))));
    assertThat(all.get(0).level()[B]).isEqualTo(0b1010);
    assertThat(all.get(0).level()[LD]).isEqualTo(1);
    assertThat(all.get(0).level()[A]).isEqualTo(0b0011);
  }

  @Test
  void aBusOfSixtyFourBitsTakesAWholeWord() {
    Card wide = TestCards.card().input("W", 64).output("Q", 64, "W").build();
    List<Vector> all =
        vectors(PlanSketch.of(wide).step(s -> s.each("W", Generators.walkingZeros(64))));
    assertThat(all).hasSize(64);
    assertThat(all.get(63).level()[0]).isEqualTo(Long.MAX_VALUE);
    assertThat(all.get(63).expect()[1]).isEqualTo(Long.MAX_VALUE);
  }

  @Test
  void drivesStayLikeSwitchesUntilTheyAreChanged() {
    assertThat(
            driven(
                plan()
                    .step(s -> s.drive("A", 3).drive("B", 5))
                    .step(s -> s.drive("A", 4))
                    .step(s -> s.each("B", words(1L, 2L)))
                    .step(s -> s.drive("LD", 1))))
        .containsExactly(
            "A=0x3 B=0x5 LD=0",
            "A=0x4 B=0x5 LD=0",
            "A=0x4 B=0x1 LD=0",
            "A=0x4 B=0x2 LD=0",
            "A=0x4 B=0x2 LD=1");
  }

  @Test
  void whatIsReleasedIsNotDrivenAndReadsNought() {
    List<Vector> all =
        vectors(
            plan().step(s -> s.drive("D", 9)).step(s -> s.release("D")).step(s -> s.drive("D", 0)));
    assertThat(all).extracting(v -> v.level()[D]).containsExactly(9L, 0L, 0L);
    assertThat(all).extracting(v -> v.enabled()[D]).containsExactly(0xFL, 0L, 0xFL);
    assertThat(all).extracting(v -> v.expect()[D]).containsExactly(9L, 0L, 0L);
    assertThat(all.get(0).enabled()[A]).as("never driven so far").isZero();
    assertThat(all).extracting(Vector::describe).element(1).isEqualTo("A=0x0 B=0x0 LD=0");
  }

  @Test
  void aPulseFollowsEveryPatternAndIsTakenBack() {
    PlanSketch plan =
        plan()
            .step(s -> s.drive("LD", 0).drive("B", 7))
            .step(s -> s.each("A", words(1L, 2L)).pulse("LD", 1).pulse("B", 0));
    assertThat(driven(plan))
        .containsExactly(
            "A=0x0 B=0x7 LD=0",
            "A=0x1 B=0x7 LD=0",
            "A=0x1 B=0x0 LD=1 (pulse on)",
            "A=0x1 B=0x7 LD=0 (pulse off)",
            "A=0x2 B=0x7 LD=0",
            "A=0x2 B=0x0 LD=1 (pulse on)",
            "A=0x2 B=0x7 LD=0 (pulse off)");
  }

  @Test
  void aPulseAloneIsTwoVectorsAndComesBackToWhatStood() {
    PlanSketch plan =
        plan()
            .step(s -> s.drive("A", 6).drive("LD", 1))
            .step(s -> s.pulse("LD", 0).pulse("A", 9))
            .step(s -> s.drive("B", 1));
    assertThat(driven(plan))
        .containsExactly(
            "A=0x6 B=0x0 LD=1",
            "A=0x9 B=0x0 LD=0 (pulse on)",
            "A=0x6 B=0x0 LD=1 (pulse off)",
            "A=0x6 B=0x1 LD=1");
  }

  @Test
  void aPulseOfAReleasedBusLetsItGoAgain() {
    List<Vector> all = vectors(plan().step(s -> s.release("D").pulse("D", 5)));
    assertThat(all).extracting(v -> v.enabled()[D]).containsExactly(0L, 0xFL, 0L);
  }

  @Test
  void placesRunOnOverTheRepeats() {
    PlanSketch plan =
        plan()
            .step(s -> s.drive("A", 0))
            .repeat(
                2,
                "twice",
                r -> r.step(s -> s.each("A", words(1L, 2L))).step(s -> s.drive("B", 1)));
    assertThat(vectors(plan))
        .extracting(Vector::origin)
        .containsExactly(
            "plan.yaml:1#1",
            "plan.yaml:3#1",
            "plan.yaml:3#2",
            "plan.yaml:4#1",
            "plan.yaml:3#3",
            "plan.yaml:3#4",
            "plan.yaml:4#2");
    assertThat(vectors(plan)).extracting(Vector::stepNumber).containsExactly(0, 1, 1, 2, 1, 1, 2);
  }

  @Test
  void vectorsDoNotChangeUnderTheirHolder() {
    List<Vector> all = vectors(plan().step(s -> s.each("A", words(1L, 2L))));
    assertThat(all.get(0).level()[A]).isEqualTo(1);
    assertThat(all.get(0).expect()[3]).isEqualTo(1);
  }
}
