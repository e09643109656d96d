package cardproof.files;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.bits.Literal;
import cardproof.card.BehaviourModel;
import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.card.Pin;
import cardproof.card.RelayFigures;
import cardproof.card.Role;
import cardproof.card.Sharing;
import cardproof.card.State;
import cardproof.card.Supply;
import cardproof.text.Position;
import cardproof.text.Problem;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;

class CardFileTest {
  @Test
  void labelsFollowARule() {
    Card card = CardFile.read(Corpus.GOOD.resolve("card").resolve("labels.yaml")).value();
    assertThat(card.buses()).extracting(bus -> bus.label(0)).containsExactly("A0", "B1", "L12");
    assertThat(card.buses()).extracting(bus -> bus.label(11)).containsExactly("AB", "B12", "L1");
    assertThat(card.buses().get(0).describe(11)).isEqualTo("AB (bit 11 of A, J1.12)");
    assertThat(card.line("L12").orElseThrow().name()).isEqualTo("S[0]");
  }

  private static Loaded<Card> read(String name) {
    return CardFile.read(Corpus.GOOD.resolve("card").resolve(name + ".yaml"));
  }

  private static Bus bus(Card card, String name) {
    return card.buses().get(card.busIndex(name));
  }

  @Test
  void readsTheSumCard() {
    Loaded<Card> loaded = read("sum");
    Card card = loaded.value();
    assertThat(loaded.warnings()).isEmpty();
    assertThat(loaded.sources()).containsExactly(Path.of(card.at().file()));
    assertThat(card.name()).isEqualTo("sum");
    assertThat(card.title()).isEqualTo("12-bit sum card");
    assertThat(card.supply()).isEqualTo(new Supply(12_000, 3_000));
    assertThat(card.buses()).extracting(Bus::name).containsExactly("A", "B", "CI", "S", "CO");
    assertThat(card.buses()).extracting(Bus::width).containsExactly(12, 12, 1, 12, 1);
    assertThat(bus(card, "A").role()).isEqualTo(Role.INPUT);
    assertThat(bus(card, "S").role()).isEqualTo(Role.OUTPUT);
    assertThat(bus(card, "S").pins().get(11)).isEqualTo(new Pin("J4", 12));
    assertThat(bus(card, "CI").at().line()).isEqualTo(7);
    assertThat(bus(card, "CI").at().column()).isEqualTo(3);
    assertThat(card.relays()).isEqualTo(new RelayFigures(2, 15_000, 18_000, 8_000));
    assertThat(card.limits().settleUs()).isEqualTo(350_000);
    // 1.25 x 2 x (18 ms + 8 ms), by hand
    assertThat(card.limits().quietUs()).isEqualTo(65_000);
    assertThat(card.limits().watchUs()).isEqualTo(415_000);
    assertThat(card.limits().holdMs()).isEqualTo(10_000);
    assertThat(card.hasState()).isFalse();
  }

  @Test
  void theSumCardAdds() {
    Card card = read("sum").value();
    BehaviourModel model = new BehaviourModel(card);
    model.apply(new long[] {0xFFF, 1, 1, 0, 0});
    assertThat(model.value(card.busIndex("S"))).isEqualTo(1);
    assertThat(model.value(card.busIndex("CO"))).isEqualTo(1);
  }

  @Test
  void readsEverythingACardCanSay() {
    Loaded<Card> loaded = read("hold");
    Card card = loaded.value();
    assertThat(loaded.warnings()).isEmpty();
    assertThat(card.supply()).isEqualTo(new Supply(12_500, 850));
    assertThat(bus(card, "Q").width()).isEqualTo(12);
    assertThat(bus(card, "Q").pins())
        .startsWith(new Pin("J2", 6), new Pin("J2", 5))
        .endsWith(new Pin("J3", 6));
    assertThat(bus(card, "Q").label(11)).isEqualTo("QC");
    assertThat(bus(card, "SEL").label(0)).isEqualTo("on bus");
    assertThat(bus(card, "FULL").pins()).containsExactly(new Pin("J4", 1), new Pin("J4", 3));
    assertThat(bus(card, "D").sharing()).isEqualTo(Sharing.WIRED_OR);
    assertThat(bus(card, "X").sharing()).isEqualTo(Sharing.EXCLUSIVE);
    assertThat(card.limits().busSettleUs()).isEqualTo(Map.of("Q", 90_000L, "D", 200_000L));
    assertThat(card.limits().quietUs()).isEqualTo(70_000);
    assertThat(card.limits().watchUs()).isEqualTo(500_000);
    assertThat(card.limits().holdMs()).isEqualTo(20_000);
    assertThat(card.behaviour().orElseThrow().states())
        .extracting(State::name)
        .containsExactly("R", "seen", "busy");
    assertThat(card.behaviour().orElseThrow().states())
        .extracting(State::powerOn)
        .containsExactly(
            new Literal(0x0F0, 0x00F, 12), new Literal(0, 1, 1), new Literal(0b00100, 0b01010, 5));
  }

  @Test
  void textsStayTexts() {
    Card card = read("contacts").value();
    assertThat(card.name()).isEqualTo("no");
    assertThat(card.title()).isEqualTo("12:30");
    assertThat(card.buses()).extracting(Bus::name).containsExactly("no", "on", "y", "n", "null");
    assertThat(card.buses().stream().map(bus -> bus.label(0)))
        .containsExactly("off", "010", "12:31", "1_0", "~");
  }

  @Test
  void warnsOfWhatItHadToAssume() {
    assertThat(read("contacts").warnings())
        .extracting(Problem::found)
        .singleElement()
        .asString()
        .contains("says nothing of its relays", "operate 15 ms, release 18 ms, bounce 8 ms");
    Loaded<Card> bare = read("bare");
    assertThat(bare.warnings())
        .extracting(Problem::found)
        .containsExactly(
            "the card has no 'behaviour'",
            "relays has no 'unseen-stages', so 1 is assumed",
            "relays has no 'release', so 18 ms is assumed",
            "relays has no 'bounce', so 8 ms is assumed");
    assertThat(bare.value().relays()).isEqualTo(new RelayFigures(1, 10_000, 18_000, 8_000));
    assertThat(bare.value().behaviour()).isEmpty();
    assertThat(bare.value().title()).isEqualTo("bare");
  }

  @Test
  void warnsOfAnOutputWithoutBehaviour(@org.junit.jupiter.api.io.TempDir Path folder)
      throws java.io.IOException {
    Path file = folder.resolve("card.yaml");
    String sum = java.nio.file.Files.readString(Corpus.GOOD.resolve("card").resolve("sum.yaml"));
    java.nio.file.Files.writeString(file, sum.replaceFirst("  CO: \\(A.*\n", ""));
    assertThat(CardFile.read(file).warnings())
        .singleElement()
        .satisfies(
            warning -> {
              assertThat(warning.found()).isEqualTo("output 'CO' has no behaviour");
              assertThat(warning.where())
                  .isEqualTo(new Position(file.toString(), 10, 3).toString());
            });
  }
}
