package cardproof.sim.circuit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cardproof.card.wiring.Wiring;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Faults that come and go. */
class SpellsTest {
  private static final long MS = 1_000_000;

  private static final Wiring WIRING =
      new Solder()
          .line("A")
          .line("S")
          .relay("K1", Solder.pt(), "A", Solder.GROUND)
          .resistor("R1", "far", Solder.GROUND, 1000)
          .wiring();

  private static CircuitProbe probe(String one, String other, boolean closed, Spell spell) {
    SpellSwitch comesAndGoes = new SpellSwitch(WIRING.net(one), WIRING.net(other), closed, spell);
    return CircuitProbe.of(new FaultyWiring(WIRING, List.of(comesAndGoes), Map.of()), 1);
  }

  @Test
  void aBridgeIsThereInItsShareOfDwellsAndNeverChangesWithinOne() {
    CircuitProbe probe = probe(Solder.PLUS, "S", true, new Spell(0.3, 10 * MS, 77));
    probe.keep = true;
    int present = 0;
    int dwells = 4000;
    for (int dwell = 0; dwell < dwells; dwell++) {
      probe.advance(dwell * 10 * MS + 5 * MS);
      boolean level = probe.circuit.level(1);
      present += level ? 1 : 0;
      probe.advance(dwell * 10 * MS + 10 * MS - 1);
      assertThat(probe.circuit.level(1)).isEqualTo(level);
    }
    assertThat(present / (double) dwells).isCloseTo(0.3, within(0.03));
    assertThat(probe.edges).allMatch(edge -> edge.ns() % (10 * MS) == 0);
    assertThat(probe.edges.size()).isGreaterThan(dwells / 4);
  }

  @Test
  void equalKeysComeAndGoTogetherAndOthersDoNot() {
    assertThat(levels(77)).isEqualTo(levels(77)).isNotEqualTo(levels(78));
  }

  private static String levels(long key) {
    CircuitProbe probe = probe(Solder.PLUS, "S", true, new Spell(0.5, 10 * MS, key));
    StringBuilder levels = new StringBuilder();
    for (int dwell = 0; dwell < 200; dwell++) {
      probe.advance(dwell * 10 * MS + 5 * MS);
      levels.append(probe.circuit.level(1) ? '1' : '0');
    }
    return levels.toString();
  }

  @Test
  void alwaysAndNeverAreNoEvents() {
    CircuitProbe never = probe(Solder.PLUS, "S", true, new Spell(0, 10 * MS, 1));
    assertThat(never.circuit.level(1)).isFalse();
    assertThat(never.circuit.nextChangeNs()).isEqualTo(TimedHeap.NEVER);
    CircuitProbe always = probe(Solder.PLUS, "S", true, new Spell(1, 10 * MS, 1));
    assertThat(always.circuit.level(1)).isTrue();
    assertThat(always.circuit.nextChangeNs()).isEqualTo(TimedHeap.NEVER);
    CircuitProbe open = probe(Solder.PLUS, "S", false, new Spell(1, 10 * MS, 1));
    assertThat(open.circuit.level(1)).isFalse();
    CircuitProbe whole = probe(Solder.PLUS, "S", false, new Spell(0, 10 * MS, 1));
    assertThat(whole.circuit.level(1)).isTrue();
  }
}
