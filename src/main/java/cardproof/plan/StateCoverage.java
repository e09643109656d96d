package cardproof.plan;

import cardproof.card.BehaviourModel;
import cardproof.card.Card;
import cardproof.card.NeverRestsException;
import cardproof.card.State;
import java.util.List;

/**
 * Which bits of a card's states a plan comes to know. A bit is established when vectors alone make
 * it known, with nothing known of any state at the start; that is how it comes back after a
 * failure.
 */
final class StateCoverage {
  private final Card card;
  private final List<State> states;
  private final BehaviourModel fromNothing;
  private final long[] known;
  private final long[] established;
  private boolean allEstablished;

  StateCoverage(Card card) {
    this.card = card;
    this.states = card.hasState() ? card.behaviour().orElseThrow().states() : List.of();
    this.known = new long[states.size()];
    this.established = new long[states.size()];
    this.allEstablished = states.isEmpty();
    this.fromNothing = states.isEmpty() ? null : new BehaviourModel(card);
    if (fromNothing != null) {
      fromNothing.forget();
    }
  }

  /**
   * @param source has just made the vector
   */
  void take(Vector vector, VectorSource source) {
    for (int s = 0; s < known.length; s++) {
      known[s] |= states.get(s).mask() & ~source.unknown(slot(s));
    }
    // Usually a matter of a few vectors, after which the second model is done with.
    if (!allEstablished && vector.trial().isEmpty()) {
      establish(vector);
    }
  }

  private void establish(Vector vector) {
    try {
      fromNothing.apply(vector.level());
    } catch (NeverRestsException loop) {
      // With unknown bits going round no state can be said to be established by this vector.
      fromNothing.forget();
      return;
    }
    allEstablished = true;
    for (int s = 0; s < established.length; s++) {
      long mask = states.get(s).mask();
      established[s] |= mask & ~fromNothing.values().unknown(slot(s));
      allEstablished &= established[s] == mask;
    }
  }

  void addGaps(List<Gap> gaps) {
    for (int s = 0; s < known.length; s++) {
      long never = states.get(s).mask() & ~known[s];
      add(gaps, GapKind.STATE_NEVER_KNOWN, s, never);
      add(gaps, GapKind.STATE_NEVER_ESTABLISHED, s, known[s] & ~established[s]);
    }
  }

  private void add(List<Gap> gaps, GapKind kind, int s, long bits) {
    if (bits != 0) {
      State state = states.get(s);
      gaps.add(new Gap(kind, slot(s), state.name(), state.width(), bits, 0));
    }
  }

  private int slot(int state) {
    return card.behaviour().orElseThrow().firstStateSlot() + state;
  }
}
