package cardproof.plan;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.plan.MemoryFault.Pair;
import cardproof.text.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BiFunction;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * March tests on a memory with known faults. What each finds: van de Goor, Testing Semiconductor
 * Memories, 1991 (from memory): MATS+ stuck-at and address decoder faults, March C- also transition
 * faults and unlinked coupling of inversion, idempotent and state kind between two words.
 */
class MarchTest {
  private static final int WORDS = MemoryModel.WORDS;
  private static final int WIDTH = MemoryModel.WIDTH;

  private static List<Vector> vectors(March test, int backgrounds) {
    List<Vector> vectors = new ArrayList<>();
    new Plan("march", MemoryModel.CARD, List.of(MemoryModel.step(test, backgrounds)), here())
        .vectors()
        .forEachRemaining(vectors::add);
    return vectors;
  }

  private static Position here() {
    return new Position("test", 1, 1);
  }

  private static Stream<MemoryFault> cells(BiFunction<Integer, Integer, Stream<MemoryFault>> of) {
    return IntStream.range(0, WORDS * WIDTH)
        .boxed()
        .flatMap(cell -> of.apply(cell / WIDTH, cell % WIDTH));
  }

  private static Stream<MemoryFault> stuck() {
    return cells((a, bit) -> Stream.of(0, 1).map(v -> MemoryFault.stuck(a, bit, v)));
  }

  private static Stream<MemoryFault> transitions(int from) {
    return cells((a, bit) -> Stream.of(MemoryFault.transition(a, bit, from)));
  }

  /** No word, another word in place of its own, another one besides. */
  private static Stream<MemoryFault> decoders() {
    return IntStream.range(0, WORDS)
        .boxed()
        .flatMap(
            a ->
                Stream.concat(
                    Stream.of(MemoryFault.decoder(a)),
                    IntStream.range(0, WORDS)
                        .filter(b -> b != a)
                        .boxed()
                        .flatMap(
                            b ->
                                Stream.of(
                                    MemoryFault.decoder(a, b), MemoryFault.decoder(a, a, b)))));
  }

  private static Stream<MemoryFault> couplings() {
    return IntStream.range(0, WORDS * WIDTH * WORDS * WIDTH)
        .mapToObj(
            n ->
                new Pair(
                    n / (WIDTH * WORDS * WIDTH),
                    n / (WORDS * WIDTH) % WIDTH,
                    n / WIDTH % WORDS,
                    n % WIDTH))
        .filter(pair -> pair.address() != pair.victim())
        .flatMap(
            pair ->
                IntStream.of(0, 1)
                    .boxed()
                    .flatMap(
                        of ->
                            Stream.of(
                                MemoryFault.inversion(pair, of),
                                MemoryFault.idempotent(pair, of, 0),
                                MemoryFault.idempotent(pair, of, 1),
                                MemoryFault.state(pair, of, 0),
                                MemoryFault.state(pair, of, 1))));
  }

  private static Stream<MemoryFault> bridges() {
    return IntStream.range(0, WIDTH * WIDTH)
        .filter(n -> n / WIDTH < n % WIDTH)
        .mapToObj(n -> MemoryFault.bridge(n / WIDTH, n % WIDTH));
  }

  private static long missed(Stream<MemoryFault> faults, March test, int backgrounds) {
    List<Vector> vectors = vectors(test, backgrounds);
    return faults.filter(fault -> !MemoryModel.found(fault, vectors)).count();
  }

  /** 5n and 10n for every background (van de Goor). */
  @Test
  void operationsAreAsManyAsPublished() {
    assertThat(March.MATS_PLUS.operationsPerWord()).isEqualTo(5);
    assertThat(March.MARCH_C_MINUS.operationsPerWord()).isEqualTo(10);
    assertThat(MemoryModel.step(March.MATS_PLUS, 1).rows()).hasSize(5 * WORDS);
    assertThat(MemoryModel.step(March.MARCH_C_MINUS, 1).rows()).hasSize(80);
    assertThat(MemoryModel.step(March.MARCH_C_MINUS, 5).rows()).hasSize(400);
    assertThat(vectors(March.MARCH_C_MINUS, 5)).hasSize(3 * 400);
  }

  /** ceil(log2(width)) + 1, common practice for memories of words. */
  @Test
  void backgroundsTellEveryTwoLinesApart() {
    assertThat(MarchRows.standardBackgrounds(1)).isEqualTo(1);
    assertThat(MarchRows.standardBackgrounds(2)).isEqualTo(2);
    assertThat(MarchRows.standardBackgrounds(8)).isEqualTo(4);
    assertThat(MarchRows.standardBackgrounds(12)).isEqualTo(5);
    assertThat(MarchRows.standardBackgrounds(64)).isEqualTo(7);
    List<Row> rows = MemoryModel.step(March.MATS_PLUS, 5).rows();
    assertThat(IntStream.range(0, 5).mapToObj(b -> rows.get(b * 40).settings().get(1).level()))
        .containsExactly(0L, 0x555L, 0x333L, 0xF0FL, 0x0FFL);
  }

  @Test
  void nothingIsFoundWhereNothingIsWrong() {
    for (March test : March.ALL) {
      assertThat(missed(Stream.of(new MemoryFault() {}), test, 5)).isEqualTo(1);
    }
  }

  @Test
  void bothFindStuckCellsAndWrongAddresses() {
    assertThat(stuck()).hasSize(192);
    assertThat(decoders()).hasSize(120);
    for (March test : March.ALL) {
      assertThat(missed(stuck(), test, 1)).as("%s, stuck", test.name()).isZero();
      assertThat(missed(decoders(), test, 1)).as("%s, decoder", test.name()).isZero();
    }
  }

  @Test
  void marchCFindsCellsThatGoOneWayOnlyAndMatsHalfOfThem() {
    assertThat(missed(transitions(0), March.MARCH_C_MINUS, 1)).isZero();
    assertThat(missed(transitions(1), March.MARCH_C_MINUS, 1)).isZero();
    assertThat(missed(transitions(0), March.MATS_PLUS, 1)).isZero();
    // its last w0 is never read
    assertThat(missed(transitions(1), March.MATS_PLUS, 1)).isEqualTo(96);
  }

  @Test
  void marchCFindsCouplingBetweenWordsAndMatsDoesNot() {
    assertThat(missed(couplings(), March.MARCH_C_MINUS, 1)).isZero();
    assertThat(missed(couplings(), March.MATS_PLUS, 1)).isPositive();
  }

  @Test
  void bridgedDataLinesTakeAllBackgrounds() {
    assertThat(bridges()).hasSize(66);
    for (March test : March.ALL) {
      assertThat(missed(bridges(), test, 1)).as("lines always alike").isEqualTo(66);
      assertThat(missed(bridges(), test, 4)).as("lines eight apart always alike").isEqualTo(4);
      assertThat(missed(bridges(), test, 5)).isZero();
    }
  }

  @Test
  void addressAndDataHoldStillWhileALineIsOn() {
    List<Vector> vectors = vectors(March.MARCH_C_MINUS, 5);
    for (int i = 0; i < vectors.size(); i += 3) {
      long[] before = vectors.get(i).level();
      long[] on = vectors.get(i + 1).level();
      long[] off = vectors.get(i + 2).level();
      assertThat(before[2] | before[3] | off[2] | off[3]).isZero();
      assertThat(on[2] + on[3]).isEqualTo(1);
      assertThat(new long[] {on[0], on[1]}).containsExactly(before[0], before[1]);
      assertThat(off).containsExactly(before);
      assertThat(vectors.get(i).enabled()[1]).isEqualTo(on[3] == 1 ? 0 : 0xFFF);
      assertThat(vectors.get(i + 1).care()[4]).isEqualTo(on[3] == 1 ? 0xFFF : 0);
    }
  }

  @Test
  void aLongMarchIsMadeAsItGoes() {
    Memory wide = new Memory(List.of(1), 1, 4, 2, 3, 4096);
    List<Row> rows = new MarchRows(MemoryModel.CARD, wide, March.MARCH_C_MINUS, 5);
    assertThat(rows).hasSize(204_800);
    // the last operation of all: r0 of the last background at the highest word
    assertThat(rows.get(204_799).settings().get(0).level()).isEqualTo(4095);
    assertThat(rows.get(204_799).whilePulsed()).hasSize(1);
    // the first w1 of an element that goes down
    assertThat(rows.get(4096 * 5 + 1).settings().get(0).level()).isEqualTo(4095);
    assertThat(
            new PatternStep(
                    here(),
                    "",
                    List.of(),
                    List.of(),
                    rows,
                    List.of(),
                    List.of(),
                    new long[5],
                    new Timing(1, new long[5], 1, 2))
                .rows())
        .isSameAs(rows);
  }
}
