package cardproof.plan.sight;

import cardproof.bits.Values;
import cardproof.card.Behaviour;
import cardproof.card.BehaviourModel;
import cardproof.card.Card;
import cardproof.card.NeverRestsException;
import java.util.BitSet;
import java.util.function.IntPredicate;

/**
 * A card's behaviour, of which whoever holds it keeps the state: many cards, sound and faulty, go
 * through one model. Not thread safe.
 */
final class Watched {
  /**
   * What the watched buses come to, by bus index.
   *
   * @param value 0 where it is not known
   */
  record Seen(long[] value, long[] known) {
    /** Whether some bit that is known of both differs. */
    boolean differsFrom(Seen other) {
      for (int b = 0; b < value.length; b++) {
        if (((value[b] ^ other.value[b]) & known[b] & other.known[b]) != 0) {
          return true;
        }
      }
      return false;
    }
  }

  private final Card card;
  private final Behaviour behaviour;
  private final BehaviourModel model;
  private final BitSet predicted = new BitSet();

  Watched(Card card) {
    this(card, bus -> true);
  }

  /**
   * @param eye indexes of buses that are looked at
   */
  Watched(Card card, IntPredicate eye) {
    this.card = card;
    this.behaviour = card.behaviour().orElseThrow();
    this.model = new BehaviourModel(card);
    for (int b = 0; b < card.buses().size(); b++) {
      predicted.set(
          b, eye.test(b) && card.buses().get(b).role().watched() && behaviour.predicts(b));
    }
  }

  boolean hasState() {
    return !behaviour.states().isEmpty();
  }

  /** Whether power leaves any bit of a state unknown. */
  boolean hasUnknownState() {
    return behaviour.states().stream().anyMatch(s -> s.powerOn().unknown() != 0);
  }

  /**
   * The states as power leaves them.
   *
   * @param unknownAs what stands in for bits that cannot be known; null to leave them unknown
   */
  Values powerOn(Boolean unknownAs) {
    model.powerOn();
    Values now = model.values();
    int first = now.size() - behaviour.states().size();
    for (int slot = first; unknownAs != null && slot < now.size(); slot++) {
      now.set(slot, now.value(slot) | (unknownAs ? now.unknown(slot) : 0), 0);
    }
    return copy();
  }

  /**
   * Lets the card come to rest.
   *
   * @param state before and, changed, after; not looked at where the card has none
   * @throws NeverRestsException where it does not
   */
  void apply(long[] driven, Values state) {
    if (hasState()) {
      model.values().copyFrom(state);
    }
    model.apply(driven);
    if (hasState()) {
      state.copyFrom(model.values());
    }
  }

  /** {@link Seen#differsFrom} of what was applied last, without making it. */
  boolean differsFrom(Seen other) {
    for (int b = predicted.nextSetBit(0); b >= 0; b = predicted.nextSetBit(b + 1)) {
      long unknown = model.unknown(b) | ~other.known()[b];
      if (((model.value(b) ^ other.value()[b]) & ~unknown) != 0) {
        return true;
      }
    }
    return false;
  }

  /** One round alone from a state, which is changed to the next. */
  void round(long[] driven, Values state) {
    model.values().copyFrom(state);
    model.round(driven);
    state.copyFrom(model.values());
  }

  /** Bits of a bus that the card itself may drive with what was applied last. */
  long cardMayDrive(int b) {
    return model.cardMayDrive(b);
  }

  /** What the model shows with what was applied last. */
  Seen seen() {
    int buses = card.buses().size();
    Seen seen = new Seen(new long[buses], new long[buses]);
    for (int b = predicted.nextSetBit(0); b >= 0; b = predicted.nextSetBit(b + 1)) {
      seen.value()[b] = model.value(b);
      seen.known()[b] = card.buses().get(b).mask() & ~model.unknown(b);
    }
    return seen;
  }

  private Values copy() {
    Values copy = new Values(model.values().size());
    copy.copyFrom(model.values());
    return copy;
  }
}
