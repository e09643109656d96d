package cardproof.conformance;

import cardproof.sim.PinSideCircuit;
import cardproof.sim.ResetCause;
import cardproof.sim.SimSettings;
import cardproof.sim.SimulatedBench;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** The simulated fixture, in this process and in virtual time. */
final class JavaPeer implements Peer {
  /** One that has these channels. */
  record Maker(String name, int drives, int watches, SimSettings settings) implements PeerMaker {
    @Override
    public Peer start(CardScript card) {
      PinSideCircuit circuit = PinSideCircuit.of(new PlayedCard(card), drives, watches);
      return new JavaPeer(circuit, circuit.bench(settings));
    }
  }

  private final PinSideCircuit circuit;
  private final SimulatedBench bench;
  private final List<Switch> switches = new ArrayList<>();
  private final byte[] buffer = new byte[4096];

  private JavaPeer(PinSideCircuit circuit, SimulatedBench bench) {
    this.circuit = circuit;
    this.bench = bench;
    bench.watchDrives((atNs, drives) -> switches.add(new Switch(atNs, (BitSet) drives.clone())));
  }

  @Override
  public Set<Offer> offers() {
    return EnumSet.allOf(Offer.class);
  }

  @Override
  public Set<Integer> resetCauses() {
    return Set.of(0, 1, 2, 3, 4, 5);
  }

  @Override
  public void send(byte[] line) {
    bench.write(line);
  }

  @Override
  public byte[] receive(long untilNs) {
    return Arrays.copyOf(buffer, bench.read(buffer, untilNs));
  }

  @Override
  public long nowNs() {
    return bench.nowNs();
  }

  @Override
  public List<Switch> switches() {
    return switches;
  }

  @Override
  public void reset(int cause) {
    bench.resetFixture(ResetCause.values()[cause]);
  }

  @Override
  public void tripSupply(long atNs) {
    circuit.tripSupply(atNs);
  }

  @Override
  public void close() {
    bench.close();
  }
}
