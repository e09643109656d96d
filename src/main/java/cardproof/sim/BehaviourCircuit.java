package cardproof.sim;

import cardproof.card.Behaviour;
import cardproof.card.BehaviourModel;
import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.card.NeverRestsException;
import cardproof.card.fault.Fault;
import cardproof.sim.circuit.Draws;
import cardproof.sim.circuit.Occasion;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.function.IntConsumer;

/**
 * A card simulated from its {@code behaviour}: after each drive the behaviour says where every
 * output comes to rest, and one relay contact for each line goes there in its own time and bounces.
 *
 * <p>Card and fixture driving one shared line read as the OR of both. Bits that the behaviour
 * leaves open keep their level. A behaviour that never rests goes on, round after round, about as
 * fast as its relays could.
 */
final class BehaviourCircuit implements Circuit {
  private static final int POWER_ON = 1;
  private static final int TIMES = 2;
  private static final int STATES = 3;

  private final List<Bus> buses;
  private final int[] firstLine;
  private final int lines;
  private final Wiring wiring;
  private final BehaviourModel model;
  private final RelayTimes times;
  private final Contacts contacts;
  private final boolean[] sent;
  private final BitSet drivable = new BitSet();
  private final BitSet driven = new BitSet();
  private final BitSet turned = new BitSet();
  private final long[] toCard;
  private final Contacts.Listener contactChanged = this::contactChanged;
  private IntConsumer lineChanged = line -> {};
  private Optional<WaveListener> tapped = Optional.empty();
  private long reachedNs;
  private long roundNs = EventQueue.NEVER;
  private final long stateKey;
  private boolean powered = true;
  private int poweredOn;

  /**
   * @param card with a behaviour
   * @param unit key of the unit, from which all its times are drawn
   */
  BehaviourCircuit(Card card, List<Fault> faults, long unit) {
    this(card, faults, Occasion.first(unit));
  }

  BehaviourCircuit(Card card, List<Fault> faults, Occasion occasion) {
    long unit = occasion.unit();
    this.buses = card.buses();
    this.firstLine = new int[buses.size()];
    this.wiring = new Wiring(card, faults);
    this.model = new BehaviourModel(card);
    this.lines = card.lines().size();
    this.times =
        new RelayTimes(card.relays(), lines, Draws.key(unit, TIMES), occasion.firstOperation());
    this.contacts = new Contacts(lines, times);
    this.toCard = new long[buses.size()];
    this.sent = new boolean[buses.size()];
    Behaviour behaviour = card.behaviour().orElseThrow();
    for (int bus = 0; bus < buses.size(); bus++) {
      firstLine[bus] = card.firstLine(bus);
      sent[bus] = buses.get(bus).role().watched() && behaviour.predicts(bus);
      if (buses.get(bus).role().driven()) {
        drivable.set(firstLine[bus], firstLine[bus] + buses.get(bus).width());
      }
    }
    this.stateKey = Draws.key(unit, STATES);
    model.fall(state -> Draws.key(stateKey, state));
    powerOn(Draws.key(unit, POWER_ON));
  }

  /** As found when power has long been on: at rest, and what is open fallen either way. */
  private void powerOn(long key) {
    rest(0);
    for (int bus = 0; bus < buses.size(); bus++) {
      for (int bit = 0; sent[bus] && bit < buses.get(bus).width(); bit++) {
        int line = firstLine[bus] + bit;
        boolean open = (model.unknown(bus) >>> bit & 1) != 0;
        boolean fallen = Draws.below(Draws.key(key, line), 2) == 0;
        contacts.place(line, open ? fallen : (model.cardDrives(bus) >>> bit & 1) != 0);
      }
    }
  }

  @Override
  public void onChange(IntConsumer listener) {
    lineChanged = listener;
  }

  /** A behaviour has no nets but its lines. */
  @Override
  public void tap(WaveListener who) {
    tapped = Optional.of(who);
    for (int line = 0; line < lines; line++) {
      who.lineChanged(reachedNs, line, level(line));
    }
  }

  @Override
  public void drive(long nowNs, BitSet lines) {
    advance(nowNs);
    turned.clear();
    turned.or(driven);
    turned.xor(lines);
    if (turned.isEmpty()) {
      return;
    }
    driven.xor(turned);
    turned.and(drivable);
    if (!powered) {
      return;
    }
    for (int line = turned.nextSetBit(0); line >= 0; line = turned.nextSetBit(line + 1)) {
      changed(nowNs, line);
    }
    rest(nowNs);
    sendContacts(nowNs, false);
  }

  @Override
  public long nextChangeNs() {
    return Math.min(contacts.nextChangeNs(), roundNs);
  }

  @Override
  public void advance(long nowNs) {
    while (roundNs <= nowNs && roundNs != EventQueue.NEVER) {
      long atNs = roundNs;
      contacts.advance(atNs, contactChanged);
      roundNs = model.round(toCard) ? atNs + times.beatNs() : EventQueue.NEVER;
      sendContacts(atNs, true);
    }
    contacts.advance(nowNs, contactChanged);
    reachedNs = nowNs;
  }

  @Override
  public boolean level(int line) {
    int cardLine = wiring.cardEnd(line);
    boolean both = contacts.isClosed(cardLine) || drivable.get(line) && driven.get(line);
    return powered && wiring.at(cardLine, both);
  }

  /**
   * With the supply every line falls at once: what a fixture drives comes from there too. States
   * fall either way when it comes back, each time anew, and the contacts take their time.
   */
  @Override
  public void power(long nowNs, boolean on) {
    advance(nowNs);
    if (powered == on) {
      return;
    }
    powered = on;
    for (int line = 0; line < lines; line++) {
      contacts.place(line, false);
      changed(nowNs, line);
    }
    roundNs = EventQueue.NEVER;
    if (on) {
      long key = Draws.key(stateKey, ++poweredOn);
      model.powerOn();
      model.fall(state -> Draws.key(key, state));
      rest(nowNs);
      sendContacts(nowNs, false);
    }
  }

  @Override
  public boolean fromWiring() {
    return false;
  }

  /** A behaviour knows no currents. */
  @Override
  public boolean supplyTripped() {
    return false;
  }

  private void contactChanged(long atNs, int cardLine) {
    changed(atNs, wiring.fixtureEnd(cardLine));
  }

  private void changed(long atNs, int line) {
    lineChanged.accept(line);
    if (tapped.isPresent()) {
      tapped.get().lineChanged(atNs, line, level(line));
    }
  }

  /** Lets the behaviour come to rest with what the card now sees. */
  private void rest(long nowNs) {
    for (int bus = 0; bus < buses.size(); bus++) {
      toCard[bus] = buses.get(bus).role().driven() ? seenByCard(bus) : 0;
    }
    try {
      model.apply(toCard);
      roundNs = EventQueue.NEVER;
    } catch (NeverRestsException e) {
      roundNs = nowNs + times.slowestNs();
    }
  }

  private long seenByCard(int bus) {
    long word = 0;
    for (int bit = 0; bit < buses.get(bus).width(); bit++) {
      int line = firstLine[bus] + bit;
      if (wiring.at(line, driven.get(wiring.fixtureEnd(line)))) {
        word |= 1L << bit;
      }
    }
    return word;
  }

  private void sendContacts(long nowNs, boolean racing) {
    for (int bus = 0; bus < buses.size(); bus++) {
      if (sent[bus]) {
        long known = buses.get(bus).mask() & ~model.unknown(bus);
        send(bus, model.cardDrives(bus), known, nowNs, racing);
      }
    }
  }

  private void send(int bus, long levels, long known, long nowNs, boolean racing) {
    for (long rest = known; rest != 0; rest &= rest - 1) {
      int bit = Long.numberOfTrailingZeros(rest);
      contacts.send(firstLine[bus] + bit, (levels >>> bit & 1) != 0, nowNs, racing);
    }
  }
}
