package cardproof.plan;

import cardproof.bits.Values;
import cardproof.card.BehaviourModel;
import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.card.NeverRestsException;
import cardproof.card.Role;
import java.util.List;

/**
 * What must come back, vector after vector: what the card's behaviour says, overridden by what the
 * step says. Bits that neither says, or that hang on a state that is not known, are not cared for.
 *
 * <p>Follows the card's state, so it must see every vector once and in order. Not thread safe.
 */
public final class Prediction {
  private final Card card;
  private final BehaviourModel model;
  private Course course;
  private final Values bare;
  private final Values given;
  private final long[] expect;
  private final long[] care;
  private boolean powered = true;

  public Prediction(Card card) {
    this.card = card;
    this.model = card.behaviour().isPresent() ? new BehaviourModel(card) : null;
    this.course = model == null ? null : new Course(model, card.buses().size());
    this.bare = new Values(card.scope().size());
    this.given = new Values(1);
    this.expect = new long[card.buses().size()];
    this.care = new long[card.buses().size()];
  }

  /** From here on the card's states are unknown, until vectors establish them again. */
  public void forget() {
    if (model != null) {
      model.forget();
    }
  }

  /**
   * The card's supply is switched. Without it every line that the fixture does not drive has to be
   * 0, and what the card kept is lost; with it again the card keeps what its file says that power
   * leaves, which is nothing known where it says nothing.
   */
  public void power(boolean on) {
    powered = on;
    forget();
    if (on && model != null) {
      model.powerOn();
    }
    course = model == null ? null : new Course(model, card.buses().size());
  }

  /**
   * Takes one vector's drives.
   *
   * @param later what is driven in the course of it
   * @param quietUs how far apart settings must be for the card to have settled between
   * @throws cardproof.card.NeverRestsException when the behaviour does not come to rest
   */
  void apply(long[] level, List<Moment> later, long quietUs, List<Expected> expected) {
    Values values = powered ? values(level, later, quietUs) : bare(level, later);
    for (int b = 0; b < expect.length; b++) {
      Bus bus = card.buses().get(b);
      if (!powered) {
        care[b] = bus.role().watched() ? bus.mask() & ~driven(b, level, later) : 0;
        expect[b] = 0;
        continue;
      }
      boolean predicted = model != null && bus.role().watched();
      care[b] = predicted ? bus.mask() & ~model.unknown(b) : 0;
      expect[b] = predicted ? model.value(b) & care[b] : 0;
    }
    for (Expected override : expected) {
      int b = override.busIndex();
      Target target = override.target();
      long mask = target.mask(card);
      override.value().evaluate(values, given, 0, target.width(card));
      care[b] = care[b] & ~mask | mask & ~target.placed(given.unknown(0));
      expect[b] = (expect[b] & ~mask | target.placed(given.value(0))) & care[b];
    }
  }

  /**
   * Takes a vector again, after {@link #forget}: what can be expected of it now.
   *
   * <p>What is half known may go round for ever where the whole truth would rest: two registers
   * that take each other's word, one known and one not. Then nothing of the state is known.
   */
  public Vector again(Vector vector) {
    if (vector.trial().isPresent()) {
      // what a trial expects follows from what was set before it; what the card keeps then is open
      forget();
      return vector;
    }
    vector.step().power().ifPresent(power -> power(power.on()));
    List<Expected> expected = VectorSource.expected(vector.step(), vector.phase(), vector.row());
    long quietUs = vector.timing().quietUs();
    try {
      apply(vector.level(), vector.later(), quietUs, expected);
    } catch (NeverRestsException halfKnown) {
      forget();
      apply(vector.level(), vector.later(), quietUs, expected);
    }
    return new Vector(
        vector.number(),
        vector.stepNumber(),
        vector.index(),
        vector.phase(),
        vector.step(),
        vector.row(),
        card,
        vector.level(),
        vector.enabled(),
        expect(),
        care(),
        vector.later(),
        vector.trial());
  }

  long[] expect() {
    return expect.clone();
  }

  long[] care() {
    return care.clone();
  }

  /** The bits of a shared bus that the card itself drives to 1. */
  long cardDrives(int busIndex) {
    return model == null || !powered ? 0 : model.cardDrives(busIndex);
  }

  /** Those, and the bits that it may drive, its state being unknown. */
  long cardMayDrive(int busIndex) {
    return model == null || !powered ? 0 : model.cardMayDrive(busIndex);
  }

  /** Bits of a bus or state that cannot be known, by slot of the card's scope. */
  long unknown(int slot) {
    return model == null || !powered ? -1L : model.values().unknown(slot);
  }

  private Values values(long[] start, List<Moment> later, long quietUs) {
    if (model != null) {
      course.take(start, later, quietUs);
      return model.values();
    }
    return bare(start, later);
  }

  /** What was driven to 1 at any time of the vector. */
  private static long driven(int b, long[] start, List<Moment> later) {
    long driven = start[b];
    for (Moment moment : later) {
      driven |= moment.level()[b];
    }
    return driven;
  }

  private Values bare(long[] start, List<Moment> later) {
    long[] level = later.isEmpty() ? start : later.get(later.size() - 1).level();
    for (int b = 0; b < level.length; b++) {
      Bus bus = card.buses().get(b);
      bare.set(b, level[b], bus.role() == Role.OUTPUT ? bus.mask() : 0);
    }
    return bare;
  }
}
