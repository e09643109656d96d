package cardproof.plan;

import cardproof.card.Bus;
import cardproof.card.Card;
import java.util.Optional;

/**
 * Adds up how long a plan will keep a card busy.
 *
 * <p>A vector ends a quiet window after its last change. That change is taken to come one silent
 * chain of relays after the drive, or at the limit if that is earlier; at once where no line that
 * the card moves is expected to change. Audits and trials of a sweep take the whole of their
 * watching time.
 */
final class CardTime {
  private final Card card;
  private final long chainUs;
  private final Audits audits = new Audits();
  private Vector previous;
  private long auditCount;
  private long expectedUs;
  private long atMostUs;
  private Vector held;
  private long heldVectors;
  private long heldExpectedUs;
  private long heldAtMostUs;
  private Optional<LongestHold> longest = Optional.empty();

  CardTime(Card card) {
    this.card = card;
    this.chainUs = card.relays().silentChainUs();
  }

  void take(Vector vector) {
    boolean audit = audits.includes(vector);
    Timing timing = vector.timing();
    // of a trial some line may always fail, and then it is watched to its end
    boolean whole = audit || vector.trial().isPresent();
    long endUs = whole ? timing.watchUs() : Math.min(timing.watchUs(), settledUs(vector));
    auditCount += audit ? 1 : 0;
    expectedUs += endUs;
    atMostUs += timing.watchUs();
    hold(vector, endUs, timing.watchUs());
    previous = vector;
  }

  long audits() {
    return auditCount;
  }

  long expectedUs() {
    return expectedUs;
  }

  long atMostUs() {
    return atMostUs;
  }

  Optional<LongestHold> longestHold() {
    return longest;
  }

  private long settledUs(Vector vector) {
    Timing timing = vector.timing();
    long lastChangeUs = cardMoves(vector) ? Math.min(chainUs, timing.longestLimitUs()) : 0;
    return lastChangeUs + timing.quietUs();
  }

  /** Whether some line may change that the fixture does not itself move, at once. */
  private boolean cardMoves(Vector vector) {
    if (previous == null) {
      return true;
    }
    boolean sameDrives = samePattern(vector);
    for (int b = 0; b < vector.care().length; b++) {
      Bus bus = card.buses().get(b);
      if (bus.role().watched()) {
        long ours = driven(vector, b) | driven(previous, b);
        long known = vector.care()[b] & previous.care()[b];
        long changes = (vector.expect()[b] ^ previous.expect()[b]) & known;
        long mayChange = sameDrives ? 0 : bus.mask() & ~known;
        if (((changes | mayChange) & ~ours) != 0) {
          return true;
        }
      }
    }
    return false;
  }

  private void hold(Vector vector, long endUs, long watchUs) {
    if (previous == null || !samePattern(vector)) {
      held = vector;
      heldVectors = 0;
      heldExpectedUs = 0;
      heldAtMostUs = 0;
    }
    heldVectors++;
    heldExpectedUs += endUs;
    heldAtMostUs += watchUs;
    boolean longer = longest.isEmpty() || heldAtMostUs > longest.get().atMostUs();
    if (longer && drivesAnything(vector)) {
      longest =
          Optional.of(
              new LongestHold(
                  held.number(), heldVectors, held.origin(), heldExpectedUs, heldAtMostUs));
    }
  }

  private boolean samePattern(Vector vector) {
    for (int b = 0; b < vector.level().length; b++) {
      if (driven(vector, b) != driven(previous, b)) {
        return false;
      }
    }
    return true;
  }

  private static boolean drivesAnything(Vector vector) {
    for (int b = 0; b < vector.level().length; b++) {
      if (driven(vector, b) != 0) {
        return true;
      }
    }
    return false;
  }

  private static long driven(Vector vector, int b) {
    return vector.level()[b] & vector.enabled()[b];
  }
}
