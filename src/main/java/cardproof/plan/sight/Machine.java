package cardproof.plan.sight;

import cardproof.bits.Values;
import cardproof.card.NeverRestsException;
import java.util.ArrayList;
import java.util.List;

/**
 * A card with one fault, taken along beside the sound one. What power leaves unknown is tried as
 * all zeros and as all ones, and the fault counts as found when both have shown it.
 */
final class Machine {
  /** One of them, with what it keeps. */
  private static final class Unit {
    private final Values state;
    private boolean shown;

    Unit(Values state, boolean shown) {
      this.state = state;
      this.shown = shown;
    }
  }

  private final Watched watched;
  private final LineFault fault;
  private final List<Unit> units;

  private Machine(Watched watched, LineFault fault, List<Unit> units) {
    this.watched = watched;
    this.fault = fault;
    this.units = units;
  }

  static Machine poweredOn(Watched watched, LineFault fault) {
    List<Unit> units = new ArrayList<>();
    units.add(new Unit(watched.powerOn(false), false));
    if (watched.hasUnknownState()) {
      units.add(new Unit(watched.powerOn(true), false));
    }
    return new Machine(watched, fault, units);
  }

  LineFault fault() {
    return fault;
  }

  /** The same, to be tried on something and thrown away. */
  Machine fork() {
    return watched.hasState()
        ? new Machine(watched, fault, units.stream().map(Machine::copy).toList())
        : this;
  }

  private static Unit copy(Unit unit) {
    Values state = new Values(unit.state.size());
    state.copyFrom(unit.state);
    return new Unit(state, unit.shown);
  }

  /**
   * Takes one pattern.
   *
   * @param sound what it has a sound card show
   * @return whether the fault has been found by now
   */
  boolean take(long[] driven, Watched.Seen sound) {
    long[] arriving = fault.through(driven);
    if (arriving == driven && !watched.hasState() && !watchedToo()) {
      return false;
    }
    if (!watched.hasState()) {
      return shows(arriving, sound, units.get(0).state);
    }
    boolean all = true;
    for (Unit unit : units) {
      unit.shown = unit.shown || shows(arriving, sound, unit.state);
      all &= unit.shown;
    }
    return all;
  }

  private boolean shows(long[] arriving, Watched.Seen sound, Values state) {
    try {
      watched.apply(arriving, state);
    } catch (NeverRestsException chatter) {
      return true;
    }
    if (!watchedToo()) {
      return watched.differsFrom(sound);
    }
    // a shared line is watched where it is driven, on the far side of the fault
    Watched.Seen seen = watched.seen();
    return new Watched.Seen(fault.through(seen.value()), fault.throughKnown(seen.known()))
        .differsFrom(sound);
  }

  private boolean watchedToo() {
    return fault.line().bus().role().watched();
  }
}
