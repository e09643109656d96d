package cardproof.plan;

import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.card.Role;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Which levels each line is driven to and expected at, over all vectors. */
final class LineCoverage {
  private final Card card;
  private final long[] driven1;
  private final long[] driven0;
  private final long[] expected1;
  private final long[] expected0;
  private final long[] cardDrives1;
  private final long[] everNotJudged;
  private final long[] notJudged;
  private long vectors;

  LineCoverage(Card card) {
    this.card = card;
    int buses = card.buses().size();
    this.driven1 = new long[buses];
    this.driven0 = new long[buses];
    this.expected1 = new long[buses];
    this.expected0 = new long[buses];
    this.cardDrives1 = new long[buses];
    this.everNotJudged = new long[buses];
    this.notJudged = new long[card.lines().size()];
  }

  void take(Vector vector) {
    // what a sweep leaves in a register is not known before its next trial has been prepared
    boolean counts = !vector.ofSweep();
    boolean judged = vector.trial().isEmpty();
    vectors += counts ? 1 : 0;
    for (int b = 0; b < driven1.length; b++) {
      Bus bus = card.buses().get(b);
      long driven = vector.level()[b] & vector.enabled()[b];
      driven1[b] |= driven;
      driven0[b] |= ~driven;
      if (judged && bus.role().watched()) {
        long care = vector.care()[b];
        long ones = vector.expect()[b] & care;
        expected1[b] |= ones;
        expected0[b] |= care & ~ones;
        cardDrives1[b] |= ones & ~driven;
        long not = bus.mask() & ~care;
        if (counts) {
          everNotJudged[b] |= not;
          count(b, not);
        }
      }
    }
  }

  private void count(int b, long bits) {
    int first = card.firstLine(b);
    for (long rest = bits; rest != 0; rest &= rest - 1) {
      notJudged[first + Long.numberOfTrailingZeros(rest)]++;
    }
  }

  void addGaps(List<Gap> gaps) {
    for (int b = 0; b < driven1.length; b++) {
      Bus bus = card.buses().get(b);
      if (bus.role().watched()) {
        long judged = expected1[b] | expected0[b];
        add(gaps, GapKind.NEVER_JUDGED, b, bus.mask() & ~judged);
        add(gaps, GapKind.NEVER_EXPECTED_1, b, judged & ~expected1[b]);
        add(gaps, GapKind.NEVER_EXPECTED_0, b, judged & ~expected0[b]);
        if (bus.role() == Role.SHARED) {
          add(gaps, GapKind.ONLY_FIXTURE_DRIVES_1, b, expected1[b] & ~cardDrives1[b]);
        }
        addSometimes(gaps, b, judged & everNotJudged[b]);
      }
      if (takes(b)) {
        add(gaps, GapKind.NEVER_DRIVEN_1, b, bus.mask() & ~driven1[b]);
        add(gaps, GapKind.NEVER_DRIVEN_0, b, bus.mask() & ~driven0[b]);
      }
    }
  }

  /** Whether the card does anything with what a fixture drives a bus to. */
  private boolean takes(int b) {
    return switch (card.buses().get(b).role()) {
      case INPUT -> true;
      case OUTPUT -> false;
      case SHARED -> card.behaviour().isEmpty() || card.behaviour().get().isRead(b);
    };
  }

  /** Bits that are judged equally often go together. */
  private void addSometimes(List<Gap> gaps, int b, long bits) {
    Map<Long, Long> byCount = new TreeMap<>();
    for (long rest = bits; rest != 0; rest &= rest - 1) {
      int bit = Long.numberOfTrailingZeros(rest);
      byCount.merge(vectors - notJudged[card.firstLine(b) + bit], 1L << bit, (x, y) -> x | y);
    }
    Bus bus = card.buses().get(b);
    byCount.forEach(
        (judged, group) ->
            gaps.add(new Gap(GapKind.SOMETIMES_JUDGED, b, bus.name(), bus.width(), group, judged)));
  }

  private void add(List<Gap> gaps, GapKind kind, int b, long bits) {
    if (bits != 0) {
      Bus bus = card.buses().get(b);
      long judged = kind == GapKind.NEVER_JUDGED ? 0 : vectors;
      gaps.add(new Gap(kind, b, bus.name(), bus.width(), bits, judged));
    }
  }
}
