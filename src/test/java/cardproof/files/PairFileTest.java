package cardproof.files;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.BehaviourModel;
import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.card.Pin;
import cardproof.card.RelayFigures;
import cardproof.card.Supply;
import cardproof.text.Problem;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PairFileTest {
  private static final Path HOUR = Corpus.GOOD.resolve("pair").resolve("hour.yaml");

  @TempDir private Path folder;

  @BeforeEach
  void copyCards() throws IOException {
    for (String card : new String[] {"next.yaml", "keep.yaml", "hold.yaml"}) {
      Files.copy(Corpus.GOOD.resolve("card").resolve(card), folder.resolve(card));
    }
  }

  private Loaded<Card> changed(String... changes) throws IOException {
    String text = Files.readString(HOUR).replace("../card/", "");
    for (int i = 0; i < changes.length; i += 2) {
      assertThat(text).contains(changes[i]);
      text = text.replace(changes[i], changes[i + 1]);
    }
    Path file = folder.resolve("pair.yaml");
    Files.writeString(file, text);
    return CardFile.read(file);
  }

  @Test
  void readsThePair() {
    Loaded<Card> loaded = CardFile.read(HOUR);
    Card hour = loaded.value();
    assertThat(loaded.warnings()).isEmpty();
    assertThat(loaded.sources())
        .extracting(file -> file.getFileName().toString())
        .containsExactly("hour.yaml", "next.yaml", "keep.yaml");
    assertThat(hour.name()).isEqualTo("hour");
    assertThat(hour.supply()).isEqualTo(new Supply(12_000, 4_000));
    assertThat(hour.buses()).extracting(Bus::name).containsExactly("LD", "Q");
    assertThat(hour.buses().get(1).pins()).startsWith(new Pin("J4", 1));
    assertThat(hour.buses().get(1).label(11)).isEqualTo("QB");
    assertThat(hour.buses().get(1).at().toString()).endsWith("hour.yaml:13:3");
    // the slower operate of next, the slower release of keep
    assertThat(hour.relays()).isEqualTo(new RelayFigures(3, 15_000, 20_000, 8_000));
    // 1.25 x 3 x (20 ms + 8 ms), by hand
    assertThat(hour.limits().quietUs()).isEqualTo(105_000);
    assertThat(hour.limits().settleUs()).isEqualTo(500_000);
    assertThat(hour.limits().holdMs()).isEqualTo(8_000);
  }

  @Test
  void itCounts() {
    Card hour = CardFile.read(HOUR).value();
    BehaviourModel model = new BehaviourModel(hour);
    for (int count = 1; count <= 5; count++) {
      model.apply(new long[] {1, 0});
      model.apply(new long[] {0, 0});
      assertThat(model.value(1)).isEqualTo(count);
    }
  }

  @Test
  void whatIsLeftOutFollowsFromTheCardsAndIsSaid() throws IOException {
    Loaded<Card> loaded =
        changed("supply: {voltage: 12 V, limit: 4 A}\n", "", "relays: {unseen-stages: 3}\n", "");
    assertThat(loaded.value().supply()).isEqualTo(new Supply(12_000, 3_500));
    assertThat(loaded.value().relays()).isEqualTo(new RelayFigures(3, 15_000, 20_000, 8_000));
    assertThat(loaded.warnings())
        .extracting(Problem::found)
        .containsExactly(
            "the pair does not say how many relays move unseen, so all 3 are assumed that do on"
                + " its cards (2 of chain, 1 of keep)");
  }

  @Test
  void figuresThatAreGivenHold() throws IOException {
    Loaded<Card> loaded =
        changed("{unseen-stages: 3}", "{unseen-stages: 4, operate: 30 ms, bounce: 1 ms}");
    assertThat(loaded.value().relays()).isEqualTo(new RelayFigures(4, 30_000, 20_000, 1_000));
    assertThat(loaded.warnings()).isEmpty();
    assertThat(changed("{unseen-stages: 3}", "{operate: 30 ms}").warnings()).hasSize(1);
  }

  @Test
  void anInputThatNothingDrivesIsWarnedOf() throws IOException {
    Loaded<Card> loaded = changed("  - {from: keep.Q, to: chain.X, at: P2}\n", "");
    assertThat(loaded.warnings())
        .singleElement()
        .satisfies(
            warning -> {
              assertThat(warning.found())
                  .isEqualTo(
                      "input chain.X has no cable and does not leave the pair, so it stays"
                          + " released");
              assertThat(warning.where()).endsWith("pair.yaml:5:3");
            });
  }

  @Test
  void oneCableMayJoinSeveralBusesAndHaveNoName() throws IOException {
    assertThat(changed("at: P1", "at: P1.1-12", "at: P2", "at: [P1.13-18, P1.24-19]").warnings())
        .isEmpty();
    assertThat(changed(", at: P1", "", ", at: P2", "").warnings()).isEmpty();
  }

  @Test
  void oneFileMayBeBothCards() throws IOException {
    Files.writeString(
        folder.resolve("two.yaml"),
        """
        pair: two
        cards: {low: next.yaml, high: next.yaml}
        cable: [{from: low.N, to: high.X}]
        inputs: {X: low.X}
        outputs: {N: high.N}
        limits: {settle: 600 ms}
        relays: {unseen-stages: 4}
        """);
    Loaded<Card> two = CardFile.read(folder.resolve("two.yaml"));
    assertThat(two.warnings()).isEmpty();
    BehaviourModel model = new BehaviourModel(two.value());
    model.apply(new long[] {7, 0});
    assertThat(model.value(1)).isEqualTo(9);
    assertThat(two.value().buses().get(0).pins()).startsWith(new Pin("low.J1", 1));
  }

  @Test
  void aPairMayBeACardOfAPair() throws IOException {
    changed();
    Files.writeString(
        folder.resolve("more.yaml"),
        """
        pair: more
        cards: {hour: pair.yaml, after: next.yaml}
        cable: [{from: hour.Q, to: after.X, at: P7}]
        inputs: {LD: hour.LD}
        outputs: {Q: hour.Q, N: after.N}
        limits: {settle: 1 s}
        relays: {unseen-stages: 4}
        """);
    Loaded<Card> more = CardFile.read(folder.resolve("more.yaml"));
    assertThat(more.warnings()).isEmpty();
    assertThat(more.sources()).hasSize(4);
    assertThat(more.value().scope().names()).contains("hour.keep.R", "hour.chain.N");
    BehaviourModel model = new BehaviourModel(more.value());
    model.apply(new long[] {1, 0, 0});
    model.apply(new long[] {0, 0, 0});
    assertThat(model.value(2)).isEqualTo(2);
  }

  @Test
  void twoRegistersShareABus() throws IOException {
    Files.writeString(
        folder.resolve("both.yaml"),
        """
        pair: both
        cards: {h: hold.yaml, m: hold.yaml}
        cable: [{from: h.D, to: m.D}]
        inputs: {LDH: h.LD, LDM: m.LD, SELH: h.SEL, SELM: m.SEL}
        outputs: {H: h.Q, M: m.Q}
        shared: {D: h.D}
        limits: {settle: 300 ms}
        relays: {unseen-stages: 4}
        """);
    Loaded<Card> both = CardFile.read(folder.resolve("both.yaml"));
    assertThat(both.warnings()).isEmpty();
    assertThat(both.value().limits().holdMs()).isEqualTo(10_000);
    assertThat(both.value().buses().get(4).label(0)).isEqualTo("h.Q1");
    BehaviourModel model = new BehaviourModel(both.value());
    model.apply(new long[] {1, 0, 0, 0, 0, 0, 0xABC});
    model.apply(new long[] {0, 0, 0, 0, 0, 0, 0});
    model.apply(new long[] {0, 1, 1, 0, 0, 0, 0});
    model.apply(new long[] {0, 0, 0, 0, 0, 0, 0});
    assertThat(model.value(5)).isEqualTo(0xABC);
    assertThat(model.unknown(5)).isZero();
  }
}
