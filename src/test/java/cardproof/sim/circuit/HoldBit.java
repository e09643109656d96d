package cardproof.sim.circuit;

import cardproof.card.Card;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.RelayType;
import java.util.Arrays;

/**
 * One bit of the hold card worked out by hand: pilot relay, load relay, and the relay that keeps
 * itself, moved on in steps of {@value #STEP_US} us by the times that were drawn for this unit. It
 * knows nothing of nets, coils' volts, fixtures or plans, so it says what the wiring implies
 * without what it is compared with.
 */
public final class HoldBit {
  private static final int STEP_US = 20;
  private static final long EDGE_US = 80_000;
  private static final long END_US = 240_000;
  private static final int UNIT = 1;

  private final Card card;
  private final long unit;
  private final int bit;
  private final String slow;
  private final long slowerUs;

  /**
   * @param slow name of a relay that takes longer, or empty
   */
  public HoldBit(Card card, long seed, String unitName, int bit, String slow, long slowerUs) {
    this.card = card;
    this.unit = Draws.key(Draws.key(seed, UNIT), unitName);
    this.bit = bit;
    this.slow = slow;
    this.slowerUs = slowerUs;
  }

  /** What is done, with times counted from the edge. */
  private record Course(
      long dataUs, boolean dataBefore, long loadUs, boolean loadBefore, long backUs) {
    boolean data(long us) {
      return us < dataUs ? dataBefore : !dataBefore;
    }

    boolean load(long us) {
      return us < loadUs || us >= backUs ? loadBefore : !loadBefore;
    }
  }

  /** Whether the bit takes a word when data comes this long before the end of load. */
  public boolean setUpWorks(long us, boolean rising, long operation) {
    Course course = new Course(EDGE_US - us, !rising, EDGE_US, true, Long.MAX_VALUE);
    return end(course, !rising, operation) == rising;
  }

  /** Whether it keeps it when data goes this long after the end of load. */
  public boolean holdWorks(long us, boolean rising, long operation) {
    Course course = new Course(EDGE_US + us, rising, EDGE_US, true, Long.MAX_VALUE);
    return end(course, rising, operation) == rising;
  }

  /** Whether it takes it by a load this long. */
  public boolean pulseWorks(long us, boolean rising, long operation) {
    Course course = new Course(Long.MAX_VALUE, rising, EDGE_US, false, EDGE_US + us);
    return end(course, !rising, operation) == rising;
  }

  private boolean end(Course course, boolean kept, long operation) {
    boolean loading = course.load(0);
    int pole = bit % 4;
    Coil pilot = new Coil("PL", 0, loading, operation);
    Coil load = new Coil("LG[" + bit / 4 + "]", pole, loading, operation);
    Coil keeper = new Coil("R[" + bit + "]", 0, kept, operation);
    for (long us = 0; us < END_US; us += STEP_US) {
      boolean data = load.made(us) && course.data(us);
      boolean own = load.rests(us) && keeper.made(us);
      boolean loads = pilot.made(us);
      pilot.move(us, course.load(us));
      load.move(us, loads);
      keeper.move(us, data || own);
    }
    return keeper.made(END_US);
  }

  /** A relay with the one of its poles that matters here. */
  private final class Coil {
    private final RelayTiming timing;
    private final Pole pole;
    private boolean on;
    private double place;
    private long operations;

    Coil(String name, int poleNumber, boolean on, long operation) {
      Relay relay =
          card.wiring().orElseThrow().relays().stream()
              .filter(one -> one.name().equals(name))
              .findFirst()
              .orElseThrow();
      this.timing = new RelayTiming(relay, Occasion.first(unit), name.equals(slow) ? slowerUs : 0);
      this.on = on;
      this.place = on ? 1 : 0;
      this.operations = operation;
      this.pole = new Pole(relay.type(), timing.key(), poleNumber, on);
    }

    boolean made(long us) {
      return pole.up && pole.closed(us);
    }

    boolean rests(long us) {
      return pole.down && pole.closed(us);
    }

    void move(long us, boolean energised) {
      if (on && !energised && place >= 1) {
        operations++;
      }
      on = energised;
      double wholeNs = on ? timing.operateNs(operations) : timing.releaseNs(operations, 0);
      place += (on ? 1 : -1) * STEP_US * 1000.0 / wholeNs;
      place = Math.max(0, Math.min(1, place));
      pole.move(us, on, place, operations);
    }
  }

  /** A change-over contact: where it breaks and makes, as it was drawn, and how it bounces. */
  private static final class Pole {
    private final double breakNc;
    private final double breakNo;
    private final double makeNo;
    private final double makeNc;
    private final Bounce bounceNo;
    private final Bounce bounceNc;
    private boolean up;
    private boolean down;
    private long[] bouncesNs = {};

    Pole(RelayType type, long relay, int pole, boolean on) {
      long key = Draws.key(relay, pole);
      breakNc = 0.60 + Draws.unit(Draws.key(key, 10)) * 0.15;
      breakNo = 0.40 - Draws.unit(Draws.key(key, 11)) * 0.15;
      boolean last = pole == Draws.below(Draws.key(relay, 12), type.poles());
      double early = last ? 0 : 0.04 * Draws.unit(Draws.key(key, 12));
      makeNo = 1 - early;
      makeNc = early;
      bounceNo = new Bounce(type.bounceNo(), Draws.key(key, 13));
      bounceNc = new Bounce(type.bounceNc(), Draws.key(key, 14));
      up = on;
      down = !on;
    }

    boolean closed(long us) {
      boolean open = false;
      for (long changeNs : bouncesNs) {
        open ^= changeNs <= us * 1000;
      }
      return !open;
    }

    void move(long us, boolean on, double place, long operations) {
      if (on && down && place >= breakNc) {
        down = false;
      } else if (on && !down && !up && place >= makeNo - 1e-9) {
        up = true;
        bouncesNs = bounces(bounceNo, us, operations);
      } else if (!on && up && place <= breakNo) {
        up = false;
      } else if (!on && !up && !down && place <= makeNc + 1e-9) {
        down = true;
        bouncesNs = bounces(bounceNc, us, operations);
      }
    }

    private static long[] bounces(Bounce bounce, long us, long operations) {
      long[] into = new long[Bounce.MOST_CHANGES];
      return Arrays.copyOf(into, bounce.changes(operations, us * 1000, into, 0));
    }
  }
}
