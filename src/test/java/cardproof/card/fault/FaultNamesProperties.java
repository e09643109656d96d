package cardproof.card.fault;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.TestWirings;
import cardproof.text.RefusedException;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

class FaultNamesProperties {
  private static final Card ADDER = TestWirings.adder(12);
  private static final Card SMALL = TestWirings.oneOfEach();

  /** Every fault there can be, some of them coming and going. */
  @Provide
  Arbitrary<Fault> faults() {
    List<Fault> all = FaultList.of(ADDER).all().toList();
    Arbitrary<Fault> listed = Arbitraries.of(all);
    Arbitrary<Fault> some =
        Combinators.combine(
                Arbitraries.of(all),
                Arbitraries.integers().between(1, 999),
                Arbitraries.longs()
                    .between(Intermittent.LEAST_SPELL_US, Intermittent.MOST_SPELL_US))
            .as(Intermittent::new);
    Arbitrary<Fault> slow =
        Arbitraries.longs().between(1, 10_000_000).map(us -> new RelaySlow("K0", us, 0));
    Arbitrary<Fault> slowPart =
        Arbitraries.integers().between(1, 1000).map(part -> new RelaySlow("K0", 0, part));
    return Arbitraries.oneOf(listed, some, slow, slowPart);
  }

  @Property
  void theNameOfAFaultIsReadAsThatFault(@ForAll("faults") Fault fault) {
    assertThat(FaultNames.parse(fault.name(), ADDER)).isEqualTo(fault);
    assertThat(FaultNames.parse(fault.name().replace(" ", "   "), ADDER)).isEqualTo(fault);
  }

  /** Nets may be called like anything; the word net keeps them apart. */
  @Property(tries = 1)
  void everyFaultOfBothCardsIsReadBack() {
    for (Card card : List.of(ADDER, SMALL)) {
      FaultList.of(card)
          .all()
          .forEach(fault -> assertThat(FaultNames.parse(fault.name(), card)).isEqualTo(fault));
    }
  }

  @Provide
  Arbitrary<String> nonsense() {
    Arbitrary<String> word =
        Arbitraries.of(
            "K3",
            "K3.no1",
            "net",
            "z",
            "Q[0]",
            "J3.2",
            "stuck",
            "at",
            "ground",
            "open",
            "coil",
            "bridged",
            "to",
            "exchanged",
            "with",
            ",",
            ", in",
            "10 %",
            "of spells of",
            "5 ms",
            "slow by",
            "50",
            "%",
            ".",
            "[",
            "",
            "joint missing",
            "never makes",
            "welded");
    return Arbitraries.oneOf(
        word.list().ofMaxSize(8).map(words -> String.join(" ", words)),
        Arbitraries.strings().ofMaxLength(40));
  }

  @Property
  void whateverIsWrittenIsReadOrRefusedInWords(@ForAll("nonsense") String text) {
    for (Card card : List.of(SMALL, ADDER)) {
      try {
        Fault fault = FaultNames.parse(text, card);
        assertThat(FaultNames.parse(fault.name(), card)).isEqualTo(fault);
      } catch (RefusedException refused) {
        assertThat(refused.problems()).hasSize(1);
        assertThat(refused.problems().get(0).found()).isNotBlank();
      }
    }
  }
}
