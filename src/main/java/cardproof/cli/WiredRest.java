package cardproof.cli;

import cardproof.card.Card;
import cardproof.card.wiring.Lamp;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Resistor;
import cardproof.run.RestLoad;
import cardproof.run.RestModel;
import cardproof.sim.circuit.FaultyWiring;
import cardproof.sim.circuit.RelayCircuit;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;

/** A sound card of nominal parts, switched relay by relay, for what it draws at rest. */
final class WiredRest implements RestModel {
  private static final long NS_PER_US = 1000;
  private static final double MICRO_PER_MILLI = 1e3;
  private static final long ANY_UNIT = 1;

  private final RelayCircuit circuit;
  private final List<RestLoad> loads = new ArrayList<>();
  private final long longestNs;
  private long nowNs;

  /**
   * @param card with wiring
   * @param watched indexes of the lines that a fixture watches
   * @param watchOhms that each of its inputs loads a line with
   */
  WiredRest(Card card, BitSet watched, int watchOhms) {
    circuit =
        new RelayCircuit(
            FaultyWiring.always(card.wiring().orElseThrow()),
            card.supply(),
            watched,
            watchOhms,
            ANY_UNIT);
    longestNs = card.limits().watchUs() * NS_PER_US;
    double millivolts = card.supply().millivolts();
    for (Optional<Part> part : circuit.loads()) {
      int line = circuit.lineOfLoad(loads.size());
      String name = part.map(Part::name).orElse("");
      loads.add(new RestLoad(name, kind(part), millivolts / ohms(part, watchOhms), line));
    }
  }

  private static RestLoad.Kind kind(Optional<Part> part) {
    if (part.isPresent() && part.get() instanceof Relay) {
      return RestLoad.Kind.COIL;
    }
    return part.isPresent() && part.get() instanceof Lamp
        ? RestLoad.Kind.LAMP
        : RestLoad.Kind.OTHER;
  }

  private static double ohms(Optional<Part> part, int watchOhms) {
    if (part.isEmpty()) {
      return watchOhms;
    }
    if (part.get() instanceof Relay relay) {
      return relay.type().coilOhms();
    }
    return part.get() instanceof Lamp lamp ? lamp.ohms() : ((Resistor) part.get()).ohms();
  }

  @Override
  public List<RestLoad> loads() {
    return List.copyOf(loads);
  }

  @Override
  public void power(boolean on) {
    circuit.power(nowNs, on);
  }

  @Override
  public Optional<double[]> rest(BitSet driven) {
    circuit.drive(nowNs, driven);
    long untilNs = nowNs + longestNs;
    for (long next = circuit.nextChangeNs(); next <= untilNs; next = circuit.nextChangeNs()) {
      nowNs = next;
      circuit.advance(next);
    }
    if (circuit.nextChangeNs() != Long.MAX_VALUE || circuit.supplyTripped()) {
      nowNs = untilNs;
      return Optional.empty();
    }
    double[] takes = new double[loads.size()];
    for (int load = 0; load < takes.length; load++) {
      takes[load] = circuit.loadMicroamps(load) / MICRO_PER_MILLI;
    }
    return Optional.of(takes);
  }
}
