package cardproof.card;

import cardproof.bits.Values;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.function.IntToLongFunction;

/**
 * A card that does exactly what its {@link Behaviour} says, at once: drive it, and read what every
 * bus comes to. States are followed from one drive to the next. Not thread safe.
 *
 * <p>States are level sensitive, as relays are: after each drive all next-state expressions are
 * taken together, again and again, until nothing changes.
 */
public final class BehaviourModel {
  private static final int MOST_ROUNDS = 100_000;

  private final List<Bus> buses;
  private final Behaviour behaviour;
  private final Values now;
  private final Values next;
  private final Values seen;
  private final long[] level;
  private final long[] own;
  private final long[] open;
  private final int firstState;

  public BehaviourModel(Card card) {
    this.buses = card.buses();
    this.behaviour =
        card.behaviour()
            .orElseThrow(() -> new IllegalArgumentException(card.name() + " has no behaviour"));
    int slots = behaviour.scope().size();
    this.now = new Values(slots);
    this.next = new Values(slots);
    this.seen = new Values(slots);
    this.level = new long[buses.size()];
    this.own = new long[buses.size()];
    this.open = new long[buses.size()];
    this.firstState = behaviour.firstStateSlot();
    powerOn();
  }

  /** Every state as power leaves it, and nothing driven. */
  public void powerOn() {
    for (int i = 0; i < behaviour.states().size(); i++) {
      State state = behaviour.states().get(i);
      now.set(firstState + i, state.powerOn().value(), state.powerOn().unknown());
    }
  }

  /** A copy of all that holds now, for {@link #restore} and {@link #doubt}. */
  public Values kept() {
    Values copy = new Values(now.size());
    copy.copyFrom(now);
    return copy;
  }

  /** Goes back to what {@link #kept} gave. */
  public void restore(Values kept) {
    now.copyFrom(kept);
  }

  /** What the card keeps may as well be what it was then: where the two differ it is unknown. */
  public void doubt(Values then) {
    for (int slot = firstState; slot < now.size(); slot++) {
      long unknown = now.unknown(slot) | then.unknown(slot) | now.value(slot) ^ then.value(slot);
      now.set(slot, now.value(slot) & ~unknown, unknown);
    }
  }

  /** Every state becomes unknown, as after a failure or a fixture that was reset. */
  public void forget() {
    for (int i = 0; i < behaviour.states().size(); i++) {
      now.set(firstState + i, 0, behaviour.states().get(i).mask());
    }
  }

  /**
   * Whatever is not known of a state falls one way or the other, as it does on a real card.
   *
   * @param drawn by position of the state: which way each of its bits falls
   */
  public void fall(IntToLongFunction drawn) {
    for (int i = 0; i < behaviour.states().size(); i++) {
      int slot = firstState + i;
      now.set(slot, now.value(slot) | now.unknown(slot) & drawn.applyAsLong(i), 0);
    }
  }

  /**
   * Lets the card come to rest with these lines driven.
   *
   * @param driven levels by bus index; released lines are 0
   * @throws NeverRestsException when it does not
   */
  public void apply(long[] driven) {
    System.arraycopy(driven, 0, level, 0, level.length);
    seen.copyFrom(now);
    int rounds = 0;
    int nextSnapshot = 1;
    while (true) {
      evaluateBuses();
      if (!evaluateStates()) {
        return;
      }
      rounds++;
      // Brent's cycle search: compare with a snapshot that is renewed at every power of two.
      if (now.sameAs(seen) || rounds == MOST_ROUNDS) {
        throw new NeverRestsException(loop());
      }
      if (rounds == nextSnapshot) {
        seen.copyFrom(now);
        nextSnapshot *= 2;
      }
    }
  }

  /**
   * One round only, for a card that never rests: what every bus comes to with these lines driven,
   * and then every state.
   *
   * @return whether a state changed, so that another round would differ
   */
  public boolean round(long[] driven) {
    System.arraycopy(driven, 0, level, 0, level.length);
    evaluateBuses();
    return evaluateStates();
  }

  /** Names of the states of which some bit is not known. */
  public List<String> unknownStates() {
    List<String> names = new ArrayList<>();
    for (int i = 0; i < behaviour.states().size(); i++) {
      if (now.unknown(firstState + i) != 0) {
        names.add(behaviour.states().get(i).name());
      }
    }
    return names;
  }

  public long value(int busIndex) {
    return now.value(busIndex);
  }

  /** Bits of a bus that cannot be known. */
  public long unknown(int busIndex) {
    return now.unknown(busIndex);
  }

  /** Bits of a bus that the card itself drives to 1, whatever the fixture drives. */
  public long cardDrives(int busIndex) {
    return own[busIndex];
  }

  /** The same, and the bits beside them that it may drive, its state being unknown. */
  public long cardMayDrive(int busIndex) {
    return own[busIndex] | open[busIndex];
  }

  /** Buses, then what is inside, then states, as the card's expressions see them. */
  public Values values() {
    return now;
  }

  private void evaluateBuses() {
    for (int bus = 0; bus < level.length; bus++) {
      if (!behaviour.predicts(bus)) {
        boolean unsaid = buses.get(bus).role() == Role.OUTPUT;
        now.set(bus, level[bus], unsaid ? buses.get(bus).mask() : 0);
      }
    }
    for (int slot : behaviour.order()) {
      behaviour.output(slot).evaluate(now, now, slot, behaviour.scope().widthOf(slot));
      if (slot < level.length) {
        drive(slot);
      }
    }
  }

  /** Puts beside what the card drives on a bus what the fixture drives. */
  private void drive(int bus) {
    own[bus] = now.value(bus);
    open[bus] = now.unknown(bus);
    if (level[bus] != 0) {
      long driven = level[bus];
      now.set(bus, now.value(bus) | driven, now.unknown(bus) & ~driven);
    }
  }

  /** Whether any state changed. */
  private boolean evaluateStates() {
    boolean changed = false;
    for (int i = 0; i < behaviour.states().size(); i++) {
      State state = behaviour.states().get(i);
      state.next().evaluate(now, next, firstState + i, state.width());
    }
    for (int slot = firstState; slot < now.size(); slot++) {
      if (now.value(slot) != next.value(slot) || now.unknown(slot) != next.unknown(slot)) {
        now.set(slot, next.value(slot), next.unknown(slot));
        changed = true;
      }
    }
    return changed;
  }

  /** Goes round once more to see which states move, then asks how they feed one another. */
  private List<String> loop() {
    BitSet moving = new BitSet();
    Values start = new Values(now.size());
    start.copyFrom(now);
    int rounds = 0;
    do {
      evaluateBuses();
      evaluateStates();
      for (int slot = 0; slot < now.size(); slot++) {
        if (now.value(slot) != start.value(slot) || now.unknown(slot) != start.unknown(slot)) {
          moving.set(slot);
        }
      }
      rounds++;
    } while (!now.sameAs(start) && rounds < MOST_ROUNDS);
    return behaviour
        .loopThrough(moving)
        .orElseGet(() -> moving.stream().mapToObj(behaviour.scope()::nameOf).toList());
  }
}
