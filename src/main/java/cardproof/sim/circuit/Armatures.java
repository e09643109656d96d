package cardproof.sim.circuit;

import cardproof.card.wiring.Relay;
import cardproof.card.wiring.RelayType;
import java.util.Arrays;
import java.util.List;
import java.util.Map;

/**
 * The moving parts of all relays. An armature is an integrator between 0, released, and 1,
 * operated: it gains while its coil is energised and loses while it is not, so a bouncing feed
 * delays it and does not start it anew. Its contacts change at places on the way: normally closed
 * ones open well before normally open ones make, and the other way round.
 *
 * <p>IEC 61810-1 and MIL-R-5757J: operate time ends when all normally open contacts have made
 * first, release time when all normally closed ones have. Not thread safe.
 */
final class Armatures {
  private static final byte AT_NC = 0;
  private static final byte BETWEEN = 1;
  private static final byte AT_NO = 2;
  private static final double BREAKS_FROM = 0.60;
  private static final double BREAKS_TO = 0.75;
  private static final double STAGGER = 0.04;
  private static final double NEARLY = 1e-9;
  private static final int BREAK_NC = 10;
  private static final int BREAK_NO = 11;
  private static final int MAKE = 12;
  private static final int BOUNCE_NO = 13;
  private static final int BOUNCE_NC = 14;

  private final TimedHeap heap;
  private final RelayTiming[] timing;
  private final boolean[] energised;
  private final double[] from;
  private final long[] sinceNs;
  private final double[] perNs;
  private final long[] operations;
  private final long firstOperation;
  private final Rows contactsOf;

  private final int[] relayOf;
  private final int[] noSwitch;
  private final int[] ncSwitch;
  private final byte[] state;
  private final double[] breakNc;
  private final double[] breakNo;
  private final double[] makeNo;
  private final double[] makeNc;
  private final Bounce[] bounceNo;
  private final Bounce[] bounceNc;
  private final long[] travelNs;
  private final long[] bounceNs;
  private final int[] bounceAt;
  private final int[] bounceCount;

  Armatures(Elements parts, Map<String, Long> slowerByUs, Occasion occasion) {
    List<Relay> relays = parts.relays;
    int count = relays.size();
    timing = new RelayTiming[count];
    energised = new boolean[count];
    from = new double[count];
    sinceNs = new long[count];
    perNs = new double[count];
    operations = new long[count];
    firstOperation = occasion.firstOperation();
    Arrays.fill(operations, firstOperation);
    for (int r = 0; r < count; r++) {
      long slowerUs = slowerByUs.getOrDefault(relays.get(r).name(), 0L);
      timing[r] = new RelayTiming(relays.get(r), occasion, slowerUs);
    }
    int contacts = parts.contacts.size();
    heap = new TimedHeap(contacts);
    relayOf = parts.contacts.stream().mapToInt(Elements.Contact::relay).toArray();
    noSwitch = parts.contacts.stream().mapToInt(Elements.Contact::noSwitch).toArray();
    ncSwitch = parts.contacts.stream().mapToInt(Elements.Contact::ncSwitch).toArray();
    contactsOf = Rows.of(count, relayOf);
    state = new byte[contacts];
    breakNc = new double[contacts];
    breakNo = new double[contacts];
    makeNo = new double[contacts];
    makeNc = new double[contacts];
    bounceNo = new Bounce[contacts];
    bounceNc = new Bounce[contacts];
    travelNs = new long[contacts];
    Arrays.fill(travelNs, TimedHeap.NEVER);
    bounceNs = new long[contacts * Bounce.MOST_CHANGES];
    bounceAt = new int[contacts];
    bounceCount = new int[contacts];
    for (int c = 0; c < contacts; c++) {
      place(c, relays.get(relayOf[c]).type(), parts.contacts.get(c).pole());
    }
  }

  /** Where on its stroke a pole breaks and makes; the last of all poles makes at its very end. */
  private void place(int c, RelayType type, int pole) {
    long relay = timing[relayOf[c]].key();
    long key = Draws.key(relay, pole);
    breakNc[c] = BREAKS_FROM + Draws.unit(Draws.key(key, BREAK_NC)) * (BREAKS_TO - BREAKS_FROM);
    breakNo[c] = 1 - BREAKS_FROM - Draws.unit(Draws.key(key, BREAK_NO)) * (BREAKS_TO - BREAKS_FROM);
    int last = Draws.below(Draws.key(relay, MAKE), type.poles());
    double early = pole == last ? 0 : STAGGER * Draws.unit(Draws.key(key, MAKE));
    makeNo[c] = 1 - early;
    makeNc[c] = early;
    bounceNo[c] = new Bounce(type.bounceNo(), Draws.key(key, BOUNCE_NO));
    bounceNc[c] = new Bounce(type.bounceNc(), Draws.key(key, BOUNCE_NC));
  }

  /** Puts every switch of a contact where it is with no coil energised. */
  void powerOn(boolean[] closed) {
    for (int one : ncSwitch) {
      if (one != Elements.NO_SWITCH) {
        closed[one] = true;
      }
    }
  }

  boolean isEnergised(int relay) {
    return energised[relay];
  }

  /** How often a relay has gone all the way up. */
  long operations(int relay) {
    return operations[relay] - firstOperation;
  }

  long nextNs() {
    return heap.firstTime();
  }

  void energise(int relay, long nowNs) {
    turn(relay, nowNs, true, 1 / timing[relay].operateNs(operations[relay]));
  }

  /**
   * @param acrossOhms what the coil's current finds to flow on through; infinite for nothing
   */
  void release(int relay, long nowNs, double acrossOhms) {
    if (place(relay, nowNs) >= 1 - NEARLY) {
      operations[relay]++;
    }
    turn(relay, nowNs, false, -1 / timing[relay].releaseNs(operations[relay], acrossOhms));
  }

  private void turn(int relay, long nowNs, boolean on, double speed) {
    from[relay] = place(relay, nowNs);
    sinceNs[relay] = nowNs;
    perNs[relay] = speed;
    energised[relay] = on;
    for (int i = contactsOf.start()[relay]; i < contactsOf.start()[relay + 1]; i++) {
      aim(contactsOf.item()[i], nowNs);
    }
  }

  private double place(int relay, long nowNs) {
    double at = from[relay] + (nowNs - sinceNs[relay]) * perNs[relay];
    return at <= 0 ? 0 : at >= 1 ? 1 : at;
  }

  /** Finds when a contact will next change because its armature travels. */
  private void aim(int c, long nowNs) {
    int relay = relayOf[c];
    boolean up = energised[relay];
    double goal = Double.NaN;
    if (up && state[c] == AT_NC && ncSwitch[c] != Elements.NO_SWITCH) {
      goal = breakNc[c];
    } else if (up && state[c] != AT_NO && noSwitch[c] != Elements.NO_SWITCH) {
      goal = makeNo[c];
    } else if (!up && state[c] == AT_NO) {
      goal = breakNo[c];
    } else if (!up && state[c] == BETWEEN && ncSwitch[c] != Elements.NO_SWITCH) {
      goal = makeNc[c];
    }
    if (Double.isNaN(goal)) {
      travelNs[c] = TimedHeap.NEVER;
    } else {
      double stillNs = (goal - from[relay]) / perNs[relay] - (nowNs - sinceNs[relay]);
      travelNs[c] = nowNs + Math.max(1, (long) Math.ceil(stillNs));
    }
    queue(c);
  }

  private void queue(int c) {
    boolean bounces = bounceAt[c] < bounceCount[c];
    long dueNs = bounces ? bounceNs[c * Bounce.MOST_CHANGES + bounceAt[c]] : TimedHeap.NEVER;
    dueNs = Math.min(dueNs, travelNs[c]);
    if (dueNs == TimedHeap.NEVER) {
      heap.remove(c);
    } else {
      heap.put(c, dueNs, c);
    }
  }

  /** Lets the first contact that is due change. */
  void fire(Nets nets) {
    int c = heap.first();
    long nowNs = heap.firstTime();
    if (travelNs[c] <= nowNs) {
      travel(c, nowNs, nets);
      aim(c, nowNs);
    } else {
      boolean opens = (bounceAt[c]++ & 1) == 0;
      nets.set(state[c] == AT_NO ? noSwitch[c] : ncSwitch[c], !opens);
      queue(c);
    }
  }

  private void travel(int c, long nowNs, Nets nets) {
    boolean up = energised[relayOf[c]];
    bounceAt[c] = 0;
    bounceCount[c] = 0;
    int first = c * Bounce.MOST_CHANGES;
    if (state[c] == AT_NC && ncSwitch[c] != Elements.NO_SWITCH) {
      nets.set(ncSwitch[c], false);
      state[c] = BETWEEN;
    } else if (state[c] == AT_NO) {
      nets.set(noSwitch[c], false);
      state[c] = BETWEEN;
    } else if (up) {
      nets.set(noSwitch[c], true);
      state[c] = AT_NO;
      bounceCount[c] = bounceNo[c].changes(operations[relayOf[c]], nowNs, bounceNs, first);
    } else {
      nets.set(ncSwitch[c], true);
      state[c] = AT_NC;
      bounceCount[c] = bounceNc[c].changes(operations[relayOf[c]], nowNs, bounceNs, first);
    }
  }
}
