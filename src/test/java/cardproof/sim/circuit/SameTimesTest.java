package cardproof.sim.circuit;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.wiring.Part;
import cardproof.card.wiring.Wiring;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** What changes times and what leaves them alone. */
class SameTimesTest {
  private static final int WIDTH = 4;

  private static List<CircuitProbe.Edge> edges(FaultyWiring card, long unit) {
    CircuitProbe probe = CircuitProbe.of(card, unit);
    probe.keep = true;
    long word = 1;
    for (int i = 0; i < 40; i++) {
      word = word * 6364136223846793005L + 1442695040888963407L;
      probe.drive(word >>> 40 & 0x1FF);
      probe.rest();
    }
    return probe.edges;
  }

  private static FaultyWiring adder() {
    return FaultyWiring.always(Adders.ripple(WIDTH, Solder.pt(), true, false));
  }

  @Test
  void sameUnitSameChanges() {
    List<CircuitProbe.Edge> edges = edges(adder(), 1);

    assertThat(edges).hasSizeGreaterThan(400);
    assertThat(edges(adder(), 1)).isEqualTo(edges);
    assertThat(edges(adder(), 2)).isNotEqualTo(edges);
  }

  /** Each relay drives lines of its own, so what one does cannot reach another but by the draws. */
  private static Solder apart() {
    Solder solder = new Solder();
    for (int i = 0; i < 3; i++) {
      solder.line("A" + i).line("S" + i).line("N" + i);
    }
    for (int i = 0; i < 3; i++) {
      solder.relay(
          "K" + i,
          Solder.pt(),
          "A" + i,
          Solder.GROUND,
          Solder.contact(Solder.PLUS, "S" + i, "N" + i));
    }
    return solder;
  }

  private static List<CircuitProbe.Edge> of(List<CircuitProbe.Edge> edges, int... relays) {
    List<CircuitProbe.Edge> some = new ArrayList<>();
    for (CircuitProbe.Edge edge : edges) {
      for (int relay : relays) {
        if (edge.line() / 3 == relay) {
          some.add(edge);
        }
      }
    }
    return some;
  }

  private static List<CircuitProbe.Edge> exercise(FaultyWiring card) {
    CircuitProbe probe = CircuitProbe.of(card, 9);
    probe.keep = true;
    for (int i = 0; i < 20; i++) {
      probe.drive(i % 2 == 0 ? 0b001001001 : 0);
      probe.advance((i + 1) * 100_000_000L);
    }
    return probe.edges;
  }

  @Test
  void aSlowerRelayLeavesTheOthersAlone() {
    Wiring wiring = apart().wiring();
    List<CircuitProbe.Edge> sound = exercise(FaultyWiring.always(wiring));
    List<CircuitProbe.Edge> slower =
        exercise(new FaultyWiring(wiring, List.of(), Map.of("K1", 7_000L)));

    assertThat(of(slower, 0, 2)).isEqualTo(of(sound, 0, 2));
    List<CircuitProbe.Edge> before = of(sound, 1);
    List<CircuitProbe.Edge> after = of(slower, 1);
    long firstMake = firstMake(before);
    assertThat(firstMake(after) - firstMake)
        .as("the whole stroke is slower by 7 ms, and so the last of it")
        .isBetween(6_700_000L, 7_000_001L);
  }

  private static long firstMake(List<CircuitProbe.Edge> edges) {
    return edges.stream().filter(e -> e.line() % 3 == 1).findFirst().orElseThrow().ns();
  }

  @Test
  void anotherPartOrAFaultLeavesTheOthersAlone() {
    Wiring wiring = apart().wiring();
    List<CircuitProbe.Edge> sound = exercise(FaultyWiring.always(wiring));
    List<Part> fewer = wiring.parts().stream().filter(p -> !p.name().equals("K0")).toList();
    assertThat(of(exercise(FaultyWiring.always(wiring.withParts(fewer))), 1, 2))
        .isEqualTo(of(sound, 1, 2));
    Wiring more = new Solder().relay("K9", Solder.pt(), "A0", Solder.GROUND).wiring();
    List<Part> all = new ArrayList<>(apart().wiring().parts());
    assertThat(more.parts()).hasSize(1);
    all.add(0, apart().relay("K9", Solder.pt(), "A0", Solder.GROUND).wiring().part("K9").get());
    assertThat(exercise(FaultyWiring.always(wiring.withParts(all)))).isEqualTo(sound);
  }
}
