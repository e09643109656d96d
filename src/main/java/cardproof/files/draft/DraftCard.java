package cardproof.files.draft;

import cardproof.card.Behaviour;
import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.card.Role;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Deque;
import java.util.List;

/** A card as whoever writes a first plan for it looks at it. */
final class DraftCard {
  private final Card card;
  private final List<Bus> inputs;
  private final List<Bus> shared;
  private final BitSet readByStates = new BitSet();

  DraftCard(Card card) {
    this.card = card;
    this.inputs = ofRole(Role.INPUT);
    this.shared = ofRole(Role.SHARED);
    card.behaviour().stream()
        .flatMap(behaviour -> behaviour.states().stream())
        .forEach(state -> readByStates.or(hangsOn(state.next().slots())));
  }

  /**
   * All that these hang on, with nothing kept between.
   *
   * @param slots of the card's scope
   * @return those, and what they read, and so on
   */
  BitSet hangsOn(BitSet slots) {
    Behaviour behaviour = card.behaviour().orElseThrow();
    int firstState = behaviour.scope().size() - behaviour.states().size();
    BitSet all = new BitSet();
    Deque<Integer> open = new ArrayDeque<>();
    slots.stream().forEach(open::add);
    while (!open.isEmpty()) {
      int slot = open.remove();
      boolean input = slot < card.buses().size() && card.buses().get(slot).role().driven();
      if (!all.get(slot) && !input && slot < firstState) {
        behaviour.reads(slot).stream().forEach(open::add);
      }
      all.set(slot);
    }
    return all;
  }

  private List<Bus> ofRole(Role role) {
    return card.buses().stream().filter(bus -> bus.role() == role).toList();
  }

  Card card() {
    return card;
  }

  List<Bus> inputs() {
    return inputs;
  }

  List<Bus> shared() {
    return shared;
  }

  List<Bus> singleInputs() {
    return inputs.stream().filter(bus -> bus.width() == 1).toList();
  }

  /** The buses that have several lines to walk along. */
  List<Bus> wide() {
    List<Bus> wide = new ArrayList<>(inputs.stream().filter(bus -> bus.width() > 1).toList());
    wide.addAll(shared);
    return wide;
  }

  int index(Bus bus) {
    return card.busIndex(bus.name());
  }

  /** Whether the next value of a state hangs on a bus. */
  boolean isReadByStates(Bus bus) {
    return readByStates.get(index(bus));
  }

  /** Whether the card's file says of any watched bus what the card puts there. */
  boolean predictsAnything() {
    return card.behaviour().isPresent()
        && card.buses().stream()
            .anyMatch(bus -> bus.role().watched() && card.behaviour().get().predicts(index(bus)));
  }

  /** Levels by bus index, all of them 0. */
  long[] rest() {
    return new long[card.buses().size()];
  }

  /** What inputs stand at that a step does not move; what states read rests, or would follow. */
  Standing standing(List<Bus> moved, List<long[]> vectors) {
    return standing(moved, vectors, readByStates);
  }

  /**
   * @param moved buses that the step moves
   * @param vectors of the step: levels by bus index, 0 for what it does not move itself
   * @param resting indexes of buses that have to stay at 0
   */
  Standing standing(List<Bus> moved, List<long[]> vectors, BitSet resting) {
    if (card.behaviour().isEmpty()) {
      return Standing.rest(card);
    }
    List<StepSight.Moved> lines = new ArrayList<>();
    for (Bus bus : moved) {
      for (int bit = 0; bit < bus.width(); bit++) {
        lines.add(new StepSight.Moved(index(bus), 1L << bit));
      }
    }
    List<Integer> free =
        inputs.stream()
            .filter(bus -> !moved.contains(bus))
            .map(this::index)
            .filter(b -> !resting.get(b))
            .toList();
    return Standing.best(card, free, new StepSight(card, lines, vectors));
  }

  /** What may be said of a step; no more than the card's behaviour bears out. */
  String claim(String lines, StepSight.Sight sight) {
    if (card.behaviour().isEmpty()) {
      return "Finds nothing until an expect says what must come back.";
    }
    if (sight.found() == 0) {
      return "No output shows " + lines + " here; that nothing moves is all this step can prove.";
    }
    boolean all = sight.found() == sight.of();
    return "Finds "
        + (all ? "" : sight.found() + " of " + sight.of() + " faults of ")
        + (all ? "lines of " : "")
        + lines
        + (all ? " that are missing or stuck" : ": lines stuck at ground or supply")
        + (sight.neighbours() ? ", and neighbours exchanged." : ".");
  }
}
