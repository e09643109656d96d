package cardproof.sim.circuit;

import cardproof.card.Supply;
import cardproof.card.wiring.Part;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.function.IntConsumer;

/**
 * A card simulated from its wiring, as its relays are: contacts that travel, break before they make
 * and bounce, coils that see a voltage, a supply with a limit that a short trips.
 *
 * <p>Time is virtual, in nanoseconds, and never goes back. All that changes at one instant changes
 * together before any coil is looked at, and no relay moves in less than 100 us, so nothing goes on
 * without time passing. Times are drawn from the unit's key and the names of the relays. The card
 * comes to rest before time 0, unless it never does. Not thread safe.
 */
public final class RelayCircuit {
  /**
   * Load that an input of a fixture puts on a line, which wets contacts and pulls the line down.
   */
  public static final int WATCH_OHMS = 1000;

  private static final long POWER_ON_NS = -5_000_000_000L;
  private static final double MILLI = 1e3;
  private static final long NANO_PER_MICRO = 1000;

  private final Elements parts;
  private final boolean[] closed;
  private final boolean[] isCoil;
  private final Armatures armatures;
  private final Loads loads;
  private final LineLevels lines;
  private final Spells spells;
  private final Suppression suppression;
  private final SupplyRail rail;
  private final Protection protection;
  private final Observation observation;
  private final BitSet driven = new BitSet();
  private final BitSet turned = new BitSet();
  private Nets nets;
  private long nowNs = POWER_ON_NS;
  private long events;
  private boolean rewired = true;
  private boolean powered = true;
  private final double nominalVolts;
  private final SupplyExtremes extremes;

  /**
   * @param supply what the card is powered with
   * @param watched lines that a fixture watches, and so loads
   * @param watchOhms of that load, to ground
   * @param unit key of the unit, from which its times are drawn
   */
  public RelayCircuit(FaultyWiring card, Supply supply, BitSet watched, int watchOhms, long unit) {
    this(card, supply, watched, watchOhms, Occasion.first(unit));
  }

  /**
   * One copy of a card, one time it is on the bench.
   *
   * @param supply what the card is powered with
   * @param watched lines that a fixture watches, and so loads
   * @param watchOhms of that load, to ground
   * @param occasion which copy, and which time
   */
  public RelayCircuit(
      FaultyWiring card, Supply supply, BitSet watched, int watchOhms, Occasion occasion) {
    parts = new Elements(card, watched, watchOhms);
    closed = new boolean[parts.switches.size()];
    isCoil = new boolean[parts.loads.size()];
    for (int load = 0; load < isCoil.length; load++) {
      isCoil[load] = parts.loads.get(load).relay() != Elements.NO_COIL;
    }
    armatures = new Armatures(parts, card.slowerByUs(), occasion);
    armatures.powerOn(closed);
    spells = new Spells(card.switches(), parts.firstSpell);
    spells.powerOn(closed);
    loads = new Loads(parts);
    double volts = supply.millivolts() / MILLI;
    nominalVolts = volts;
    extremes = new SupplyExtremes(supply);
    lines = new LineLevels(volts, watched);
    rail = new SupplyRail(supply);
    Topology topology = new Topology(parts, new BitSet());
    nets = new Nets(topology, closed, volts);
    suppression = new Suppression(topology);
    protection = new Protection(parts, closed);
    observation = new Observation(lines);
    powerOn();
  }

  private void powerOn() {
    settle();
    while (nextChangeNs() < 0) {
      advance(nextChangeNs());
    }
    nowNs = 0;
  }

  /** Who is told of each line whose level, as a fixture sees it, has changed. */
  public void onChange(IntConsumer lineChanged) {
    lines.onChange(lineChanged);
  }

  /** From now on also tells this one, first of how everything stands. */
  public void observe(CircuitObserver observer) {
    observation.observe(observer, nowNs, nets, loads.total());
  }

  /** The fixture drives exactly these lines, by joining them to the supply. */
  public void drive(long atNs, BitSet lineSet) {
    advance(atNs);
    turned.clear();
    turned.or(driven);
    turned.xor(lineSet);
    if (turned.isEmpty()) {
      return;
    }
    driven.xor(turned);
    for (int line = turned.nextSetBit(0); line >= 0; line = turned.nextSetBit(line + 1)) {
      nets.set(parts.firstDrive + line, driven.get(line));
      events++;
    }
    settle();
  }

  /**
   * Switches the supply; it is on at first. Without it coils let go and every line falls. Switching
   * on starts a supply that had tripped anew; fuses stay as they are.
   */
  public void power(long atNs, boolean on) {
    advance(atNs);
    if (powered == on) {
      return;
    }
    powered = on;
    protection.power(on);
    rail.restart();
    nets.setSupply(on ? nominalVolts : 0);
    settle();
  }

  /** Lowest and highest from now on are those of now. */
  public void restartExtremes() {
    extremes.restart(nets.supply(), loads.total(), powered && nets.shorts > 0);
  }

  /** What the supply held at the least since the last restart; 0 in a dead short. */
  public long lowestMillivolts() {
    return extremes.lowestMillivolts();
  }

  /** What it gave at the most since the last restart; its limit in a dead short. */
  public long highestMicroamps() {
    return extremes.highestNanoamps() / NANO_PER_MICRO;
  }

  /** When the next change may come if nothing is driven anew; {@link TimedHeap#NEVER} if none. */
  public long nextChangeNs() {
    return Math.min(Math.min(armatures.nextNs(), spells.nextNs()), protection.nextNs());
  }

  /** Lets everything happen that is due up to now, now included. */
  public void advance(long untilNs) {
    for (long next = nextChangeNs(); next <= untilNs; next = nextChangeNs()) {
      if (next == TimedHeap.NEVER) {
        break;
      }
      nowNs = next;
      while (armatures.nextNs() == next) {
        armatures.fire(nets);
        events++;
      }
      while (spells.nextNs() == next) {
        spells.fire(nets);
        events++;
      }
      if (protection.nextNs() == next) {
        protect();
      }
      settle();
    }
    nowNs = Math.max(nowNs, untilNs);
  }

  /** The level of a line as a fixture sees it. */
  public boolean level(int line) {
    return lines.level(line);
  }

  /** Lines that stand between 40 and 60 % of the supply now. */
  public BitSet weakLines() {
    return (BitSet) lines.weak().clone();
  }

  /** Whether a short has tripped the supply. It stays off from then on. */
  public boolean supplyTripped() {
    return protection.tripped();
  }

  /** Out of the supply now, the fixture's drives and the loads of its inputs included. */
  public long supplyMicroamps() {
    return loads.total() / NANO_PER_MICRO;
  }

  /** What the supply holds now: less than its own voltage when it is at its limit. */
  public long supplyMillivolts() {
    return Math.round(nets.supply() * MILLI);
  }

  /**
   * What a meter from this net to ground would read now.
   *
   * @param net number of a net of the wiring
   */
  public long netMillivolts(int net) {
    return Math.round(netVolts(net) * MILLI);
  }

  double netVolts(int net) {
    return nets.volts[nets.topology.nodeOfNet[net]];
  }

  /**
   * How often a relay has gone all the way up and left there again.
   *
   * @param relay number among the relays of the wiring
   */
  public long operations(int relay) {
    return armatures.operations(relay);
  }

  /** Everything that takes current, by the part it is; empty for an input of the fixture. */
  public List<Optional<Part>> loads() {
    return List.copyOf(parts.partOfLoad);
  }

  /**
   * The line that a load lies between and ground, alone; below 0 where there is none.
   *
   * @param load number among {@link #loads}
   */
  public int lineOfLoad(int load) {
    Elements.Load one = parts.loads.get(load);
    int ground = parts.wiring.ground();
    int net = one.first() == ground ? one.second() : one.first();
    boolean toGround = one.first() == ground || one.second() == ground;
    return toGround ? parts.wiring.lineNets().indexOf(net) : -1;
  }

  /** What a load takes out of the supply now. */
  public long loadMicroamps(int load) {
    return loads.of(load) / NANO_PER_MICRO;
  }

  /** How many coils are energised now. */
  public int energisedCoils() {
    int count = 0;
    for (int r = 0; r < parts.relays.size(); r++) {
      count += loads.isEnergised(r) ? 1 : 0;
    }
    return count;
  }

  public boolean isEnergised(int relay) {
    return loads.isEnergised(relay);
  }

  public CircuitWarnings warnings() {
    return new CircuitWarnings(
        protection.glitches(),
        lines.weakCount(),
        loads.uncertainCount(),
        rail.limited(),
        protection.blownNames());
  }

  /** Changes of contacts and drives so far, bounce included. */
  public long events() {
    return events;
  }

  long nowNs() {
    return nowNs;
  }

  Tally tally() {
    return nets.tally;
  }

  private void settle() {
    if (nets.isDirty()) {
      do {
        nets.settle();
        spread();
      } while (rail.adjust(nets, loads.total(), !powered || protection.tripped()));
      loads.judge(nets);
      turnCoils();
    }
    protection.watch(nowNs, nets, loads.total());
    extremes.take(nets.supply(), loads.total(), powered && nets.shorts > 0);
  }

  private void spread() {
    if (rewired) {
      loads.startOver(nets);
      lines.updateAll(nets);
      rewired = false;
    } else {
      loads.update(nets);
      lines.update(nets);
    }
    observation.record(nowNs, nets, loads.total());
  }

  private void turnCoils() {
    for (int i = 0; i < loads.turnedCount; i++) {
      int relay = loads.turned[i];
      if (loads.isEnergised(relay)) {
        armatures.energise(relay, nowNs);
      } else {
        boolean first = loads.wasFirstEndHigh(relay);
        double ohms = suppression.ohms(loads.loadOf(relay), first, closed, isCoil);
        armatures.release(relay, nowNs, ohms);
      }
    }
  }

  /** A short has lasted, or a fuse is hot: opens what opens, and starts over with that. */
  private void protect() {
    double volts = nets.supply();
    if (protection.fire(nowNs)) {
      Topology topology = new Topology(parts, protection.blown());
      Nets fresh = new Nets(topology, closed, volts);
      fresh.tally.add(nets.tally);
      nets = fresh;
      suppression.rewire(topology);
      observation.rewire();
      rewired = true;
    }
    if (protection.tripped()) {
      nets.setSupply(0);
    }
  }
}
