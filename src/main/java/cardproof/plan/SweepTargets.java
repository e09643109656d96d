package cardproof.plan;

import cardproof.bits.Values;
import cardproof.card.BehaviourModel;
import cardproof.card.Bus;
import cardproof.card.Card;

/**
 * What a card shows at the end of a trial where the data was taken, and where it was not: the same
 * settings, far apart and in the one or the other order. Not thread safe.
 */
final class SweepTargets {
  private final Card card;
  private final BehaviourModel model;
  private final long[] target;
  private final long[] lines;

  SweepTargets(Card card) {
    this.card = card;
    this.model = card.behaviour().isPresent() ? new BehaviourModel(card) : null;
    this.target = new long[card.buses().size()];
    this.lines = new long[card.buses().size()];
  }

  /** Levels where the data was taken. */
  long[] target() {
    return target.clone();
  }

  /** Bits that tell. */
  long[] lines() {
    return lines.clone();
  }

  /**
   * @param prepared levels just before the trial
   * @return whether any bit tells
   */
  boolean work(Sweep sweep, boolean complement, long[] prepared) {
    if (model == null) {
      byOut(sweep, complement);
    } else {
      byBehaviour(sweep, complement, prepared);
    }
    for (long bits : lines) {
      if (bits != 0) {
        return true;
      }
    }
    return false;
  }

  private void byOut(Sweep sweep, boolean complement) {
    Target out = sweep.out().orElseThrow();
    lines[out.busIndex()] = out.mask(card);
    target[out.busIndex()] = out.placed(sweep.word(card, complement));
  }

  private void byBehaviour(Sweep sweep, boolean complement, long[] prepared) {
    Setting data = sweep.data(card, complement);
    Setting other = sweep.data(card, !complement);
    Setting edge = sweep.control(true);
    Setting back = sweep.control(false);
    model.forget();
    long[] level = prepared.clone();
    apply(level);
    apply(level, edge);
    apply(level, back);
    Values before = model.kept();
    switch (sweep.kind()) {
      case SET_UP -> apply(level, data, edge);
      case HOLD -> apply(level, data, edge, other);
      case PULSE -> apply(level, data, edge, back);
      default -> throw new IllegalStateException(sweep.kind().name());
    }
    Values taken = model.kept();
    model.restore(before);
    level = prepared.clone();
    switch (sweep.kind()) {
      case SET_UP -> apply(level, edge, data);
      case HOLD -> apply(level, edge, other);
      case PULSE -> apply(level, data);
      default -> throw new IllegalStateException(sweep.kind().name());
    }
    for (int b = 0; b < lines.length; b++) {
      Bus bus = card.buses().get(b);
      long known = bus.mask() & ~taken.unknown(b) & ~model.unknown(b);
      long shows = bus.role().watched() ? known & (taken.value(b) ^ model.value(b)) : 0;
      lines[b] = sweep.out().map(out -> of(out, bus)).orElse(-1L) & shows;
      target[b] = taken.value(b) & lines[b];
    }
  }

  private long of(Target out, Bus bus) {
    return card.buses().get(out.busIndex()) == bus ? out.mask(card) : 0;
  }

  private void apply(long[] level, Setting... settings) {
    if (settings.length == 0) {
      model.apply(level);
    }
    for (Setting setting : settings) {
      int b = setting.busIndex();
      long mask = setting.mask() & card.buses().get(b).mask();
      level[b] = level[b] & ~mask | setting.level() & mask;
      model.apply(level);
    }
  }
}
