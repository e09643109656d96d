package cardproof.plan;

import cardproof.card.Card;
import cardproof.card.Line;
import java.util.ArrayList;
import java.util.List;

/**
 * Counts how often each line is switched, from nothing driven to nothing driven again: a run ends
 * with its drives down.
 */
final class DriveWear {
  private final Card card;
  private final long[] before;
  private final long[] changes;

  DriveWear(Card card) {
    this.card = card;
    this.before = new long[card.buses().size()];
    this.changes = new long[card.lines().size()];
  }

  void take(Vector vector) {
    for (int b = 0; b < before.length; b++) {
      change(b, vector.level()[b] & vector.enabled()[b]);
      for (Moment moment : vector.later()) {
        change(b, moment.level()[b] & moment.enabled()[b]);
      }
    }
  }

  /** Of every line that a fixture drives, in the card's order. */
  List<LineChanges> end() {
    for (int b = 0; b < before.length; b++) {
      change(b, 0);
    }
    List<LineChanges> all = new ArrayList<>();
    for (Line line : card.lines()) {
      if (line.bus().role().driven()) {
        all.add(new LineChanges(line, changes[line.index()]));
      }
    }
    return List.copyOf(all);
  }

  private void change(int b, long driven) {
    int first = card.firstLine(b);
    for (long differs = before[b] ^ driven; differs != 0; differs &= differs - 1) {
      changes[first + Long.numberOfTrailingZeros(differs)]++;
    }
    before[b] = driven;
  }
}
