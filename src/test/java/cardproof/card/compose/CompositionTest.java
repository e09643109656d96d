package cardproof.card.compose;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import cardproof.card.BehaviourModel;
import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.card.NeverRestsException;
import cardproof.card.Pin;
import cardproof.card.RelayFigures;
import cardproof.card.Role;
import cardproof.card.Sharing;
import cardproof.card.State;
import cardproof.card.TestCards;
import org.junit.jupiter.api.Test;

class CompositionTest {
  static Card chain() {
    return TestCards.card().input("X", 12).output("N", 12, "X + 1").build();
  }

  static Card keep() {
    return TestCards.card()
        .input("D", 12)
        .input("LD", 1)
        .output("Q", 12, "R")
        .state("M", 12, "0", "LD ? D : M")
        .state("R", 12, "0", "LD ? R : M")
        .build();
  }

  /** Repeaters where a register should be. */
  static Card through() {
    return TestCards.card().input("D", 12).input("EN", 1).output("Q", 12, "D").build();
  }

  static Joining hour() {
    return new Joining()
        .card("chain", chain())
        .card("keep", keep())
        .cable("chain.N", "keep.D")
        .cable("keep.Q", "chain.X")
        .leaves("LD", "keep.LD")
        .leaves("Q", "keep.Q");
  }

  private static Joining fedBack() {
    return new Joining()
        .card("chain", chain())
        .card("through", through())
        .cable("chain.N", "through.D")
        .cable("through.Q", "chain.X")
        .leaves("EN", "through.EN")
        .leaves("Q", "through.Q");
  }

  private static long after(BehaviourModel model, Card card, String bus, long... driven) {
    model.apply(driven);
    assertThat(model.unknown(card.busIndex(bus))).isZero();
    return model.value(card.busIndex(bus));
  }

  /** A register powers up clear, each pulse counts one up, all ones go to 0: common practice. */
  @Test
  void theHourCounterCountsOneUpWithEachPulseAndWraps() {
    Card hour = hour().whole();
    assertThat(hour.buses()).extracting(Bus::name).containsExactly("LD", "Q");
    BehaviourModel model = new BehaviourModel(hour);
    assertThat(after(model, hour, "Q", 0, 0)).isZero();
    for (int count = 1; count <= 4100; count++) {
      assertThat(after(model, hour, "Q", 1, 0)).isEqualTo(count - 1 & 0xFFF);
      assertThat(after(model, hour, "Q", 0, 0)).isEqualTo(count & 0xFFF);
    }
  }

  @Test
  void whatTheCardsKeepAndWhatIsBetweenThemCanBeNamed() {
    Card hour = hour().whole();
    assertThat(hour.behaviour().orElseThrow().states())
        .extracting(State::name)
        .containsExactly("keep.M", "keep.R");
    assertThat(hour.scope().names()).containsExactly("LD", "Q", "chain.N", "keep.M", "keep.R");
    assertThat(hour.lines()).hasSize(13);
  }

  @Test
  void aConnectorThatBothCardsHaveGetsTheCardsName() {
    Card hour = hour().whole();
    // chain has J1 and J2, keep has J1, J2 and J3
    assertThat(hour.buses().get(0).pins()).containsExactly(new Pin("keep.J2", 1));
    assertThat(hour.buses().get(1).pins()).startsWith(new Pin("J3", 1));
  }

  @Test
  void aChainFedBackWithNothingBetweenIsRecognisedAndItsCircleNamed() {
    Composition composition = fedBack().composition();
    assertThat(composition.circles())
        .singleElement()
        .satisfies(
            circle -> {
              assertThat(circle.names())
                  .containsExactly("through.Q", "chain.X", "chain.N", "through.D", "through.Q");
              assertThat(circle.at().line()).isEqualTo(2);
            });
    assertThat(hour().composition().circles()).isEmpty();
  }

  @Test
  void nothingIsSaidOfAChainFedBackAndAsARealCardItNeverRests() {
    Card fed = fedBack().card(fedBack().composition());
    BehaviourModel model = new BehaviourModel(fed);
    model.apply(new long[] {0, 0});
    assertThat(model.unknown(1)).isEqualTo(0xFFF);
    model.fall(state -> 0x5A5);
    assertThatThrownBy(() -> model.apply(new long[] {0, 0}))
        .isInstanceOf(NeverRestsException.class);
  }

  @Test
  void aCardWhoseOutputGoesToItselfIsACircleToo() {
    Joining self =
        new Joining()
            .card("chain", chain())
            .card("keep", keep())
            .cable("chain.N", "chain.X")
            .leaves("LD", "keep.LD")
            .leaves("N", "chain.N");
    assertThat(self.composition().circles())
        .extracting(Circle::names)
        .containsExactly(java.util.List.of("chain.N", "chain.X", "chain.N"));
    BehaviourModel model = new BehaviourModel(self.whole());
    model.apply(new long[2]);
    assertThat(model.unknown(1)).isEqualTo(0xFFF);
  }

  /** The set-reset latch of two NOR elements, each on a card of its own: common practice. */
  @Test
  void aCircleThatTheDrivesForceIsKnownAndHolds() {
    Card nor = TestCards.card().input("A", 1).input("B", 1).output("Y", 1, "~(A | B)").build();
    Joining latch =
        new Joining()
            .card("high", nor)
            .card("low", nor)
            .cable("high.Y", "low.A")
            .cable("low.Y", "high.A")
            .leaves("RESET", "high.B")
            .leaves("SET", "low.B")
            .leaves("Q", "high.Y");
    assertThat(latch.composition().circles()).hasSize(1);
    BehaviourModel model = new BehaviourModel(latch.whole());
    model.apply(new long[] {0, 0, 0});
    assertThat(model.unknown(2)).isEqualTo(1);
    Card whole = latch.whole();
    assertThat(after(model, whole, "Q", 0, 1, 0)).isEqualTo(1);
    assertThat(after(model, whole, "Q", 0, 0, 0)).isEqualTo(1);
    assertThat(after(model, whole, "Q", 1, 0, 0)).isZero();
    assertThat(after(model, whole, "Q", 0, 0, 0)).isZero();
  }

  @Test
  void cardsThatShareABusReadTheOrOfAllThatDriveIt() {
    Card hold =
        TestCards.card()
            .input("LD", 1)
            .input("SEL", 1)
            .shared("D", 4, Sharing.WIRED_OR, "SEL ? R : 0")
            .state("R", 4, "0", "LD ? D : R")
            .build();
    Joining rack =
        new Joining()
            .card("h", hold)
            .card("m", hold)
            .card("s", hold)
            .cable("h.D", "m.D")
            .cable("m.D", "s.D")
            .leaves("LDH", "h.LD")
            .leaves("LDM", "m.LD")
            .leaves("LDS", "s.LD")
            .leaves("SELH", "h.SEL")
            .leaves("SELM", "m.SEL")
            .leaves("SELS", "s.SEL")
            .leaves("D", "h.D");
    Card whole = rack.whole();
    assertThat(rack.composition().circles()).isEmpty();
    BehaviourModel model = new BehaviourModel(whole);
    // put 5 in h and 8 in m, then copy both at once to s and read s back
    model.apply(new long[] {1, 0, 0, 0, 0, 0, 5});
    model.apply(new long[] {0, 0, 0, 0, 0, 0, 0});
    model.apply(new long[] {0, 1, 0, 0, 0, 0, 8});
    model.apply(new long[] {0, 0, 0, 0, 0, 0, 0});
    assertThat(after(model, whole, "D", 0, 0, 1, 1, 1, 0, 0)).isEqualTo(13);
    model.apply(new long[] {0, 0, 0, 0, 0, 0, 0});
    assertThat(after(model, whole, "D", 0, 0, 0, 0, 0, 1, 0)).isEqualTo(13);
    assertThat(model.cardDrives(6)).isEqualTo(13);
    assertThat(after(model, whole, "D", 0, 0, 0, 0, 0, 1, 2)).isEqualTo(15);
  }

  @Test
  void anInputWithoutCableStaysReleasedAndIsNamed() {
    Joining loose =
        new Joining()
            .card("chain", chain())
            .card("keep", keep())
            .cable("chain.N", "keep.D")
            .leaves("LD", "keep.LD")
            .leaves("Q", "keep.Q");
    assertThat(loose.composition().released())
        .extracting(bus -> bus.name(loose.members()))
        .containsExactly("chain.X");
    Card whole = loose.whole();
    BehaviourModel model = new BehaviourModel(whole);
    model.apply(new long[] {1, 0});
    assertThat(after(model, whole, "Q", 0, 0)).isEqualTo(1);
  }

  @Test
  void whatComesFromAnOutputThatNothingIsSaidOfIsUnknown() {
    Card silent = TestCards.card().input("A", 1).output("Y", 4).build();
    Card add = TestCards.card().input("A", 4).output("S", 4, "A & 0b0011").build();
    Joining both =
        new Joining()
            .card("silent", silent)
            .card("add", add)
            .cable("silent.Y", "add.A")
            .leaves("A", "silent.A")
            .leaves("Y", "silent.Y")
            .leaves("S", "add.S");
    BehaviourModel model = new BehaviourModel(both.whole());
    model.apply(new long[3]);
    assertThat(model.unknown(1)).isEqualTo(0b1111);
    assertThat(model.unknown(2)).isEqualTo(0b0011);
    assertThat(both.whole().behaviour().orElseThrow().predicts(1)).isFalse();
  }

  /** Two hour counters, the second of which counts when the first one's top bit is given to it. */
  @Test
  void aWholeMayBeAMemberOfAnotherWhole() {
    Joining both =
        new Joining()
            .card("low", hour().whole())
            .card("high", hour().whole())
            .card("top", TestCards.card().input("A", 12).output("T", 1, "A[1]").build())
            .cable("low.Q", "top.A")
            .cable("top.T", "high.LD")
            .leaves("LD", "low.LD")
            .leaves("L", "low.Q")
            .leaves("H", "high.Q");
    Card whole = both.whole();
    assertThat(whole.scope().names()).contains("low.chain.N", "high.keep.R");
    BehaviourModel model = new BehaviourModel(whole);
    for (int count = 1; count <= 64; count++) {
      model.apply(new long[] {1, 0, 0});
      assertThat(after(model, whole, "L", 0, 0, 0)).isEqualTo(count);
      assertThat(after(model, whole, "H", 0, 0, 0)).isEqualTo(count / 4);
    }
  }

  @Test
  void labelsThatTwoCardsHaveGetTheCardsName() {
    Card lamps = labelled("Y");
    Card others = labelled("Y");
    Joining both =
        new Joining()
            .card("one", lamps)
            .card("other", others)
            .cable("one.Y", "other.A")
            .leaves("A", "one.A")
            .leaves("Y", "one.Y")
            .leaves("Z", "other.Y");
    Card whole = both.whole();
    assertThat(whole.buses().get(1).label(0)).isEqualTo("one.LAMP");
    assertThat(whole.buses().get(2).label(0)).isEqualTo("other.LAMP");
    assertThat(whole.line("other.LAMP").orElseThrow().name()).isEqualTo("Z");
  }

  private static Card labelled(String output) {
    Card plain = TestCards.card().input("A", 1).output(output, 1, "A").build();
    java.util.List<Bus> buses = new java.util.ArrayList<>(plain.buses());
    Bus bus = buses.get(1);
    buses.set(
        1,
        new Bus(
            bus.name(),
            Role.OUTPUT,
            1,
            bus.pins(),
            java.util.List.of("LAMP"),
            bus.sharing(),
            bus.at()));
    return new Card(
        "lamp",
        "lamp",
        plain.supply(),
        buses,
        plain.behaviour().orElseThrow(),
        plain.limits(),
        plain.relays(),
        plain.at());
  }

  @Test
  void theSlowestFiguresAndAllUnseenStagesHold() {
    Card quick = TestCards.card().relays(new RelayFigures(2, 9_000, 20_000, 1_000)).build();
    Card slow = TestCards.card().relays(new RelayFigures(1, 15_000, 10_000, 6_000)).build();
    Joining both = new Joining().card("quick", quick).card("slow", slow);
    assertThat(Composition.relays(both.members()))
        .isEqualTo(new RelayFigures(3, 15_000, 20_000, 6_000));
  }

  @Test
  void cablesThatDoNotFitAreRefused() {
    Joining wrong = new Joining().card("chain", chain()).card("keep", keep());
    wrong.cable("chain.N", "keep.LD");
    assertThatThrownBy(wrong::composition).isInstanceOf(IllegalArgumentException.class);
    Joining twice = hour().leaves("AGAIN", "chain.X");
    assertThatThrownBy(twice::composition)
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("a second time");
  }
}
