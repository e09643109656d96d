package cardproof.firmware;

import cardproof.firmware.ChipBench.Edge;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.stream.IntStream;

/**
 * When what happened at the pins, step by step. A step starts with the first pin that the chip
 * switches for it; the pins of one step switch within a few microseconds.
 */
final class PinTruth {
  private static final long STEPS_APART_CYCLES = 16 * 200;
  private static final double CYCLES_PER_US = 16;

  private final List<Long> starts = new ArrayList<>();
  private final List<Edge> watches = new ArrayList<>();

  /**
   * @param steps what each was to drive, no two in a row the same
   */
  static PinTruth of(List<Edge> edges, List<BitSet> steps) {
    PinTruth truth = new PinTruth();
    long before = -STEPS_APART_CYCLES;
    for (Edge edge : edges) {
      if (edge.kind() == 'd') {
        if (edge.cycle() - before >= STEPS_APART_CYCLES && truth.starts.size() < steps.size()) {
          truth.starts.add(edge.cycle());
        }
        before = edge.cycle();
      } else if (edge.kind() == 'w') {
        truth.watches.add(edge);
      }
    }
    if (truth.starts.size() != steps.size()) {
      throw new AssertionError(truth.starts.size() + " starts at the pins of " + steps.size());
    }
    return truth;
  }

  /** Cycles at which a watch changed, from the start of this step to that of the next. */
  List<Long> flips(int step, int watch) {
    long from = starts.get(step);
    long to = step + 1 < starts.size() ? starts.get(step + 1) : Long.MAX_VALUE;
    List<Long> flips = new ArrayList<>();
    long before = 0;
    for (Edge edge : watches) {
      if (edge.cycle() >= to) {
        break;
      }
      long moved = (edge.levels() ^ before) >>> watch & 1;
      if (moved != 0 && edge.cycle() >= from) {
        flips.add(edge.cycle());
      }
      before = edge.levels();
    }
    return flips;
  }

  /** How many of the levels between these changes were held for less than this. */
  long shorterThan(double us, List<Long> flips) {
    return IntStream.range(1, flips.size())
        .filter(i -> flips.get(i) - flips.get(i - 1) < us * CYCLES_PER_US)
        .count();
  }

  double us(int step, long cycle) {
    return (cycle - starts.get(step)) / CYCLES_PER_US;
  }
}
