package cardproof.plan;

import cardproof.card.Card;
import cardproof.card.TestCards;
import cardproof.text.Position;
import java.util.Arrays;
import java.util.List;

/**
 * Eight words of twelve bits, seen from their lines: a word is taken while WR is 1 and given while
 * RD is 1. Words that are read together come back as their OR, and nothing as 0.
 */
final class MemoryModel {
  static final int WORDS = 8;
  static final int WIDTH = 12;
  static final Card CARD =
      TestCards.card()
          .input("AD", 3)
          .input("DI", WIDTH)
          .input("WR", 1)
          .input("RD", 1)
          .output("DO", WIDTH)
          .build();
  static final Memory LINES = new Memory(List.of(0), 1, 4, 2, 3, WORDS);

  private final MemoryFault fault;
  private final int[] words = new int[WORDS];

  /**
   * @param powerOn what every word holds at first
   */
  MemoryModel(MemoryFault fault, int powerOn) {
    this.fault = fault;
    for (int a = 0; a < WORDS; a++) {
      words[a] = fault.stored(a, powerOn, powerOn);
    }
    fault.after(words.clone(), words);
  }

  static PatternStep step(March test, int backgrounds) {
    return new PatternStep(
        new Position("test", 1, 1),
        test.name(),
        List.of(),
        List.of(),
        new MarchRows(CARD, LINES, test, backgrounds),
        List.of(),
        List.of(),
        new long[CARD.buses().size()],
        new Timing(1, new long[CARD.buses().size()], 1, 2));
  }

  /** Whether any vector shows that something is wrong, whatever the words are at power-on. */
  static boolean found(MemoryFault fault, List<Vector> vectors) {
    return new MemoryModel(fault, 0).fails(vectors)
        && new MemoryModel(fault, 0xFFF).fails(vectors)
        && new MemoryModel(fault, 0xA53).fails(vectors);
  }

  private boolean fails(List<Vector> vectors) {
    return vectors.stream().anyMatch(v -> ((apply(v.level()) ^ v.expect()[4]) & v.care()[4]) != 0);
  }

  private int apply(long[] level) {
    int[] reached = fault.reached((int) level[0]);
    if (level[2] == 1) {
      int[] before = words.clone();
      int data = fault.carried((int) level[1]);
      Arrays.stream(reached).forEach(a -> words[a] = fault.stored(a, before[a], data));
      fault.after(before, words);
    }
    int out = Arrays.stream(reached).map(a -> words[a]).reduce(0, (a, b) -> a | b);
    return level[3] == 1 ? fault.carried(out) : 0;
  }
}
