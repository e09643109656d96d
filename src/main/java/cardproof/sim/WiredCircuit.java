package cardproof.sim;

import cardproof.card.Card;
import cardproof.card.fault.Fault;
import cardproof.card.wiring.Wiring;
import cardproof.sim.circuit.CircuitWarnings;
import cardproof.sim.circuit.Faults;
import cardproof.sim.circuit.FaultyWiring;
import cardproof.sim.circuit.Occasion;
import cardproof.sim.circuit.RelayCircuit;
import cardproof.sim.circuit.Tolerances;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.function.IntConsumer;

/** A card simulated from its wiring, behind the same face as one simulated from its behaviour. */
final class WiredCircuit implements Circuit {
  private final RelayCircuit relays;
  private final Wiring wiring;
  private final SupplyMeter meter = new Meter();

  /** What the relay circuit says of its supply. */
  private final class Meter implements SupplyMeter {
    @Override
    public long millivolts() {
      return relays.supplyMillivolts();
    }

    @Override
    public long microamps() {
      return relays.supplyMicroamps();
    }

    @Override
    public void restart() {
      relays.restartExtremes();
    }

    @Override
    public long lowestMillivolts() {
      return relays.lowestMillivolts();
    }

    @Override
    public long highestMicroamps() {
      return relays.highestMicroamps();
    }
  }

  private WiredCircuit(RelayCircuit relays, Wiring wiring) {
    this.relays = relays;
    this.wiring = wiring;
  }

  /**
   * @param card with wiring
   * @param lineOfWatch line by watch channel of the fixture, each of which loads its line
   * @param tolerancePercent how far coils and lamps lie from what their types say
   * @param occasion which copy, from which all its times are drawn, and which time it is
   */
  static WiredCircuit of(
      Card card, List<Fault> faults, int[] lineOfWatch, int tolerancePercent, Occasion occasion) {
    long unit = occasion.unit();
    BitSet watched = new BitSet();
    for (int line : lineOfWatch) {
      if (line != Channels.NOTHING) {
        watched.set(line);
      }
    }
    FaultyWiring faulty = Faults.put(card.wiring().orElseThrow(), card, faults, occasion.spells());
    FaultyWiring soldered = Tolerances.spread(faulty, tolerancePercent, unit);
    return new WiredCircuit(
        new RelayCircuit(soldered, card.supply(), watched, RelayCircuit.WATCH_OHMS, occasion),
        soldered.wiring());
  }

  @Override
  public void onChange(IntConsumer lineChanged) {
    relays.onChange(lineChanged);
  }

  @Override
  public void tap(WaveListener who) {
    relays.observe(new CircuitTap(relays, wiring, who));
  }

  @Override
  public boolean fromWiring() {
    return true;
  }

  @Override
  public void drive(long nowNs, BitSet driven) {
    relays.drive(nowNs, driven);
  }

  @Override
  public long nextChangeNs() {
    return relays.nextChangeNs();
  }

  @Override
  public void advance(long nowNs) {
    relays.advance(nowNs);
  }

  @Override
  public boolean level(int line) {
    return relays.level(line);
  }

  @Override
  public boolean supplyTripped() {
    return relays.supplyTripped();
  }

  @Override
  public void power(long nowNs, boolean on) {
    relays.power(nowNs, on);
  }

  @Override
  public Optional<SupplyMeter> meter() {
    return Optional.of(meter);
  }

  @Override
  public Optional<CircuitWarnings> warnings() {
    return Optional.of(relays.warnings());
  }
}
