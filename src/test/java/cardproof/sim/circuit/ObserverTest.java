package cardproof.sim.circuit;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.wiring.Wiring;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** What an observer is told, against what can be asked. */
class ObserverTest {
  private static final class Recorder implements CircuitObserver {
    private final Map<Integer, NetLevel> nets = new HashMap<>();
    private final List<Long> times = new ArrayList<>();
    private long microamps = -1;
    private long millivolts = -1;

    @Override
    public void net(long timeNs, int net, NetLevel level) {
      assertThat(nets.put(net, level)).as("told of no change").isNotEqualTo(level);
      times.add(timeNs);
    }

    @Override
    public void supply(long timeNs, long now, long volts) {
      microamps = now;
      millivolts = volts;
      times.add(timeNs);
    }
  }

  private static NetLevel level(long millivolts) {
    return millivolts >= 7200 ? NetLevel.ONE : millivolts < 4800 ? NetLevel.ZERO : NetLevel.WEAK;
  }

  @Test
  void tellsOfEveryNetAndTheSupply() {
    Wiring wiring = Adders.ripple(4, Solder.pt(), true, true);
    CircuitProbe probe = CircuitProbe.of(wiring, 3);
    Recorder recorder = new Recorder();
    probe.circuit.observe(recorder);
    assertThat(recorder.nets).hasSize(wiring.nets().size());

    for (long word : new long[] {0x1FF, 0, 0x0F1, 0x100}) {
      probe.drive(word);
      check(probe, wiring, recorder);
      probe.rest();
      check(probe, wiring, recorder);
    }
    assertThat(recorder.times).isSorted().hasSizeGreaterThan(300);
    assertThat(recorder.millivolts).isEqualTo(12_000);
  }

  private static void check(CircuitProbe probe, Wiring wiring, Recorder recorder) {
    for (int net = 0; net < wiring.nets().size(); net++) {
      assertThat(recorder.nets.get(net))
          .as("%s", wiring.nets().get(net))
          .isEqualTo(level(probe.circuit.netMillivolts(net)));
    }
    assertThat(recorder.microamps).isEqualTo(probe.circuit.supplyMicroamps());
  }

  @Test
  void tellsAlsoWhenAFuseTakesEverythingAway() {
    Wiring wiring =
        new Solder()
            .line("A")
            .fuse("F1", "IN", Solder.PLUS, 1000)
            .resistor("R1", Solder.PLUS, Solder.GROUND, 7.5) // 1.6 A: after 6.4 s
            .resistor("R2", Solder.PLUS, "S", 5)
            .wiring("IN");
    CircuitProbe probe = CircuitProbe.of(wiring, 3);
    Recorder recorder = new Recorder();
    probe.circuit.observe(recorder);
    int net = wiring.net("S");
    assertThat(recorder.nets.get(net)).isEqualTo(NetLevel.ONE);
    probe.advance(10_000_000_000L);
    assertThat(probe.circuit.warnings().blownFuses()).containsExactly("F1");
    assertThat(recorder.nets.get(net)).isEqualTo(NetLevel.ZERO);
    assertThat(recorder.microamps).isZero();
  }
}
