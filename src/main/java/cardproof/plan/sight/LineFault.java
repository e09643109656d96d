package cardproof.plan.sight;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.card.Role;
import java.util.ArrayList;
import java.util.List;

/**
 * One thing that a slip with the iron does to lines that are driven: one of them lies at a rail, or
 * two have changed places.
 */
public sealed interface LineFault {
  /** The bus that the first of its lines belongs to. */
  Line line();

  /** Levels behind the fault where these stand before it, by bus index; the same array if equal. */
  long[] through(long[] words);

  /** Bits of which the level behind the fault is known where these are known before it. */
  default long[] throughKnown(long[] known) {
    return through(known);
  }

  /**
   * @param atSupply or at ground
   */
  record Stuck(Line line, boolean atSupply) implements LineFault {
    @Override
    public long[] through(long[] words) {
      return get(words, line) == atSupply ? words : set(words.clone(), line, atSupply);
    }

    @Override
    public long[] throughKnown(long[] known) {
      return set(known.clone(), line, true);
    }

    @Override
    public String toString() {
      return line + (atSupply ? " stuck at supply" : " stuck at ground");
    }
  }

  /** Both are inputs, or both lines of shared buses. */
  record Exchanged(Line line, Line other) implements LineFault {
    @Override
    public long[] through(long[] words) {
      boolean first = get(words, line);
      boolean second = get(words, other);
      return first == second ? words : set(set(words.clone(), line, second), other, first);
    }

    @Override
    public String toString() {
      return line + " exchanged with " + other;
    }
  }

  /** Every driven line stuck at either level, then every two that could be exchanged. */
  static List<LineFault> of(Card card) {
    List<Line> driven = card.lines().stream().filter(l -> l.bus().role().driven()).toList();
    List<LineFault> faults = new ArrayList<>();
    for (Line line : driven) {
      faults.add(new Stuck(line, false));
      faults.add(new Stuck(line, true));
    }
    for (int i = 0; i < driven.size(); i++) {
      for (int j = i + 1; j < driven.size(); j++) {
        if (sameWay(driven.get(i), driven.get(j))) {
          faults.add(new Exchanged(driven.get(i), driven.get(j)));
        }
      }
    }
    return faults;
  }

  private static boolean sameWay(Line one, Line other) {
    return (one.bus().role() == Role.SHARED) == (other.bus().role() == Role.SHARED);
  }

  private static boolean get(long[] words, Line line) {
    return (words[line.busIndex()] >>> line.bit() & 1) != 0;
  }

  private static long[] set(long[] words, Line line, boolean on) {
    long bit = 1L << line.bit();
    int b = line.busIndex();
    words[b] = on ? words[b] | bit : words[b] & ~bit;
    return words;
  }
}
