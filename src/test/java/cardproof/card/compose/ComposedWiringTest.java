package cardproof.card.compose;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.card.TestCards;
import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Figure;
import cardproof.card.wiring.Fuse;
import cardproof.card.wiring.Lamp;
import cardproof.card.wiring.Net;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Pole;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.RelayType;
import cardproof.card.wiring.Resistor;
import cardproof.card.wiring.Spot;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wire;
import cardproof.card.wiring.Wiring;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class ComposedWiringTest {
  private static final Figure TIME = Figure.typical(15_000);
  private static final RelayType TYPE =
      new RelayType(
          "T",
          "",
          2,
          12_000,
          192,
          75,
          10,
          TIME,
          TIME,
          TIME,
          TIME,
          TIME,
          0,
          Map.of(),
          "",
          Joining.HERE);

  /** Two lines, each with a relay that passes it on; with every kind of part beside. */
  private static Card repeater(String ground, boolean parts) {
    Card card = TestCards.card().input("D", 2).output("Q", 2, "D").build();
    Wiring.Builder wiring = new Wiring.Builder();
    int in = wiring.net("IN", Joining.HERE);
    int plus = wiring.net("+12V", Joining.HERE);
    int minus = wiring.net(ground, Joining.HERE);
    wiring.add(new Fuse("F1", in, plus, 3000, spot(100), Joining.HERE));
    for (int bit = 0; bit < 2; bit++) {
      int d = wiring.net("D[" + bit + "]", Joining.HERE);
      int q = wiring.net("Q[" + bit + "]", Joining.HERE);
      int none = Terminal.NOT_WIRED;
      List<Pole> poles = List.of(new Pole(plus, q, none), new Pole(none, none, none));
      String name = "K" + (bit + 1);
      wiring.add(new Relay(name, TYPE, d, minus, poles, name, spot(bit), Joining.HERE));
      if (parts) {
        wiring.add(new Diode(name + ".flyback", minus, d, spot(bit), Joining.HERE));
        wiring.add(new Lamp("L" + bit, q, minus, 12_000, 40, spot(bit), Joining.HERE));
        wiring.add(new Resistor("R" + bit, d, minus, 1000, spot(bit), Joining.HERE));
        wiring.add(new Wire("W" + bit, d, d, spot(bit), Joining.HERE));
      }
    }
    List<String> lines = card.lines().stream().map(Line::name).toList();
    return card.withWiring(wiring.build("IN", ground, lines, Joining.HERE));
  }

  private static Optional<Spot> spot(double xMm) {
    return Optional.of(new Spot(xMm, 5));
  }

  private static Joining two(String otherGround) {
    return new Joining()
        .card("one", repeater("GND", true))
        .card("other", repeater(otherGround, false))
        .cable("one.Q", "other.D", "P1")
        .leaves("D", "one.D")
        .leaves("Q", "other.Q");
  }

  private static Wiring wiring(String otherGround) {
    return two(otherGround).whole().wiring().orElseThrow();
  }

  private static String net(Wiring wiring, String part, String terminal) {
    return wiring.part(part).orElseThrow().terminals().stream()
        .filter(one -> one.name().equals(terminal))
        .map(one -> one.wired() ? wiring.nets().get(one.net()).name() : "-")
        .findFirst()
        .orElseThrow();
  }

  @Test
  void everyPartHasItsCardsNameBeforeIt() {
    assertThat(wiring("GND").parts())
        .extracting(Part::name)
        .containsExactly(
            "one.supply",
            "one.ground",
            "one.F1",
            "one.K1",
            "one.K1.flyback",
            "one.L0",
            "one.R0",
            "one.W0",
            "one.K2",
            "one.K2.flyback",
            "one.L1",
            "one.R1",
            "one.W1",
            "other.supply",
            "other.ground",
            "other.F1",
            "other.K1",
            "other.K2",
            "P1.1",
            "P1.2");
    assertThat(wiring("GND").relays()).extracting(Relay::socket).contains("other.K2");
  }

  @Test
  void everyCoreOfTheCableIsAWire() {
    Wiring wiring = wiring("GND");
    assertThat(wiring.part("P1.2")).containsInstanceOf(Wire.class);
    assertThat(net(wiring, "P1.2", "1")).isEqualTo("one.Q[1]");
    assertThat(net(wiring, "P1.2", "2")).isEqualTo("other.D[1]");
    assertThat(net(wiring, "other.K2", "coil1")).isEqualTo("other.D[1]");
  }

  @Test
  void aLeadGoesFromTheSupplyAndItsReturnToEachCard() {
    Wiring wiring = wiring("GND");
    for (String card : List.of("one", "other")) {
      assertThat(net(wiring, card + ".supply", "1")).isEqualTo("IN");
      assertThat(net(wiring, card + ".supply", "2")).isEqualTo(card + ".IN");
      assertThat(net(wiring, card + ".F1", "1")).isEqualTo(card + ".IN");
      assertThat(net(wiring, card + ".ground", "1")).isEqualTo("GND");
      assertThat(net(wiring, card + ".ground", "2")).isEqualTo(card + ".GND");
      assertThat(net(wiring, card + ".K1", "coil2")).isEqualTo(card + ".GND");
    }
    assertThat(net(wiring, "other.K1", "com1")).isEqualTo("other.+12V");
    assertThat(net(wiring, "other.K1", "com2")).isEqualTo("-");
    assertThat(wiring.supply()).isEqualTo(wiring.net("IN"));
    assertThat(wiring.ground()).isEqualTo(wiring.net("GND"));
  }

  @Test
  void railsThatTheCardsNameDifferentlyGetANameOfTheirOwn() {
    Wiring wiring = wiring("RETURN");
    assertThat(net(wiring, "one.ground", "1")).isEqualTo("GROUND");
    assertThat(net(wiring, "other.ground", "1")).isEqualTo("GROUND");
    assertThat(net(wiring, "other.ground", "2")).isEqualTo("other.RETURN");
    assertThat(wiring.nets()).extracting(Net::name).doesNotHaveDuplicates();
  }

  @Test
  void theLinesThatLeaveAreNetsOfTheirCards() {
    Wiring wiring = wiring("GND");
    assertThat(wiring.lineNets())
        .extracting(net -> wiring.nets().get(net).name())
        .containsExactly("one.D[0]", "one.D[1]", "other.Q[0]", "other.Q[1]");
  }

  @Test
  void noPartHasANeighbourOnTheOtherCard() {
    Wiring wiring = wiring("GND");
    assertThat(wiring.part("one.F1").orElseThrow().spot()).contains(new Spot(100, 5));
    assertThat(wiring.part("other.K1").orElseThrow().spot()).contains(new Spot(1100, 5));
  }

  @Test
  void aCardOfWhichNothingIsKnownLeavesTheWholeWithoutWiring() {
    Joining half =
        new Joining()
            .card("one", repeater("GND", false))
            .card("chain", TestCards.card().input("X", 2).output("N", 2, "X + 1").build())
            .cable("one.Q", "chain.X")
            .leaves("D", "one.D")
            .leaves("N", "chain.N");
    assertThat(half.whole().wiring()).isEmpty();
  }
}
