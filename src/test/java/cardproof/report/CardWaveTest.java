package cardproof.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.card.wiring.Wiring;
import cardproof.files.CardFile;
import cardproof.log.Verdict;
import cardproof.text.Position;
import cardproof.text.RefusedException;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;

class CardWaveTest {
  private static final Position AT = new Position("card.yaml", 1, 1);

  private final ByteArrayOutputStream out = new ByteArrayOutputStream();

  private static Card card(String name) {
    return CardFile.read(Path.of("vectors", name, "card.yaml")).value();
  }

  private static Card unwired() {
    Card sum = card("sum");
    return new Card(
        sum.name(),
        sum.title(),
        sum.supply(),
        sum.buses(),
        sum.behaviour().orElseThrow(),
        sum.limits(),
        sum.relays(),
        sum.at());
  }

  /** The sum card with the nets of its carry chain, and a few more. */
  private static Card wired() {
    Wiring.Builder wiring = new Wiring.Builder();
    for (int bit = 0; bit <= 12; bit++) {
      wiring.net("C[" + bit + "]", AT);
    }
    for (int bit : new int[] {3, 5}) {
      wiring.net("BIT[" + bit + "].odd", AT);
    }
    wiring.net("W[7][2]", AT);
    Card card = card("sum");
    return card.withWiring(
        wiring.build("+12V", "GND", card.lines().stream().map(Line::name).toList(), AT));
  }

  private CardWave wave(Card card, List<Integer> nets, boolean measured) {
    return new CardWave(out, card, "somebody", List.of("a remark"), nets, measured);
  }

  private VcdFile read() {
    return VcdReader.read(out.toString(StandardCharsets.US_ASCII));
  }

  private static String text(String digits) {
    StringBuilder letters = new StringBuilder();
    for (int at = 0; at < digits.length(); at += 8) {
      char letter = (char) Integer.parseInt(digits.substring(at, at + 8), 2);
      letters.append(letter == 0 ? "" : letter);
    }
    return letters.toString();
  }

  @Test
  void aVerdictStandsOverItsOwnVectorEvenWhenItIsSupersededLater() throws IOException {
    Card card = card("sum");
    CardWave wave = wave(card, List.of(), false);
    for (Line line : card.lines()) {
      wave.line(0, line.index(), false);
    }
    int sum2 = card.line("S[2]").orElseThrow().index();
    wave.vectorStarted(1_000, 0);
    wave.line(2_000, sum2, true);
    wave.vectorStarted(5_000, 1);
    wave.judged(0, Verdict.PASS);
    wave.line(5_500, sum2, false);
    wave.vectorStarted(9_000, 2);
    wave.judged(0, Verdict.UNSETTLED);
    wave.judged(1, Verdict.WRONG);
    wave.judged(2, Verdict.PASS);
    wave.judged(3, Verdict.UNTESTED);
    wave.end(9_999);
    VcdFile file = read();
    VcdFile.Signal verdict = file.signal("sum.vector.verdict");
    VcdFile.Signal failed = file.signal("sum.vector.failed");
    VcdFile.Signal number = file.signal("sum.vector.number");
    assertThat(number.at(999)).matches("x+");
    assertThat(verdict.at(999)).matches("x+");
    assertThat(failed.at(999)).isEqualTo("x");
    assertThat(text(verdict.at(1_000))).isEqualTo("unsettled");
    assertThat(text(verdict.at(5_000))).isEqualTo("wrong");
    assertThat(text(verdict.at(9_000))).isEqualTo("pass");
    assertThat(Integer.parseInt(number.at(8_999), 2)).as("as reports count").isEqualTo(2);
    assertThat(Integer.parseInt(number.at(9_000), 2)).isEqualTo(3);
    assertThat(failed.values()).containsEntry(1_000L, "1").containsEntry(9_000L, "0");
    assertThat(file.signal("sum.lines.S").at(2_000)).isEqualTo("000000000100");
    assertThat(file.signal("sum.lines.S").at(5_500)).isEqualTo("000000000000");
    assertThat(file.endNs()).isEqualTo(9_999);
    assertThat(file.comments()).containsExactly("a remark");
  }

  @Test
  void aVectorWithMoreChangesThanCanBeKeptIsWrittenWithoutItsVerdict() throws IOException {
    Card card = card("sum");
    CardWave wave = wave(card, List.of(), false);
    wave.vectorStarted(0, 0);
    for (int i = 0; i <= CardWave.MOST_KEPT; i++) {
      wave.line(i, 0, i % 2 == 0);
    }
    assertThat(out.size()).as("written while it runs").isGreaterThan(1_000_000);
    wave.vectorStarted(1_000_000, 1);
    wave.judged(0, Verdict.CHATTER);
    wave.judged(1, Verdict.PASS);
    wave.end(2_000_000);
    VcdFile file = read();
    VcdFile.Signal verdict = file.signal("sum.vector.verdict");
    assertThat(verdict.at(0)).matches("x+");
    assertThat(text(verdict.at(1_000_000))).isEqualTo("pass");
    assertThat(file.signal("sum.lines.A").values()).hasSize(CardWave.MOST_KEPT + 1);
  }

  @Test
  void whatTheFixtureDrivesIsShownWhereItIsNotTheWholeStory() throws IOException {
    Card card = card("hold");
    CardWave wave = wave(card, List.of(), false);
    wave.driven(0, card.line("D[3]").orElseThrow().index(), true);
    wave.driven(0, card.line("LD").orElseThrow().index(), true);
    wave.end(1);
    VcdFile file = read();
    assertThat(file.signal("hold.drives.D").at(0)).isEqualTo("xxxxxxxx1xxx");
    assertThat(file.signals()).doesNotContainKey("hold.drives.LD");
  }

  @Test
  void netsOfOneStemAreOneVectorAndBlocksAreScopes() throws IOException {
    Card card = wired();
    List<Integer> nets = NetChoice.of(card, "--nets", List.of("C[*], W*", "BIT[*].odd,+12V"));
    CardWave wave = wave(card, nets, true);
    Wiring wiring = card.wiring().orElseThrow();
    wave.supply(0, 12_000, 0);
    nets.forEach(
        net -> {
          try {
            wave.net(0, net, false);
          } catch (IOException e) {
            throw new AssertionError(e);
          }
        });
    wave.net(10, wiring.net("C[11]"), true);
    wave.net(10, wiring.net("BIT[5].odd"), true);
    wave.net(10, wiring.net("GND"), true);
    wave.netUnknown(10, wiring.net("W[7][2]"));
    wave.supply(10, 11_995, 61_230);
    wave.end(20);
    VcdFile file = read();
    assertThat(file.signal("sum.nets.C").at(10)).isEqualTo("0100000000000");
    assertThat(file.signal("sum.nets.C").select()).isEqualTo("[12:0]");
    assertThat(file.signal("sum.nets.BIT[5].odd").at(10)).isEqualTo("1");
    assertThat(file.signal("sum.nets.W[7][2]").values())
        .containsEntry(0L, "0")
        .containsEntry(10L, "x");
    assertThat(file.signal("sum.supply.mA").at(10)).isEqualTo("61.23");
    assertThat(file.signal("sum.supply.volts").at(10)).isEqualTo("11.995");
    assertThat(file.signals()).containsKey("sum.nets.+12V").doesNotContainKey("sum.nets.GND");
  }

  @Test
  void numbersThatAreLeftOutKeepNetsApart() throws IOException {
    Card card = wired();
    CardWave wave =
        wave(card, NetChoice.of(card, "--nets", List.of("C[2]", "C[3]", "C[5]")), false);
    wave.end(0);
    assertThat(read().signals())
        .containsKeys("sum.nets.C[2]", "sum.nets.C[3]", "sum.nets.C[5]")
        .doesNotContainKey("sum.nets.C");
  }

  @Test
  void linesMayBeNamedAndAreNoNetsBesides() {
    Card card = wired();
    Wiring wiring = card.wiring().orElseThrow();
    assertThat(NetChoice.of(card, "--nets", List.of("S[*]", "*odd")))
        .containsExactly(wiring.net("BIT[3].odd"), wiring.net("BIT[5].odd"));
    assertThat(NetChoice.of(unwired(), "--nets", List.of("S[3]"))).isEmpty();
  }

  @Test
  void aNameThatFitsNothingIsRefusedWithTheNearest() {
    assertThatThrownBy(
            () -> NetChoice.of(wired(), "--nets", List.of("C[13],BIT[*].od", "BIT[4].odd")))
        .isInstanceOf(RefusedException.class)
        .hasMessage(
            "--nets: card sum has no net 'C[13]'; wanted names of its nets."
                + " Did you mean 'C[10]'?\n"
                + "--nets: card sum has no net 'BIT[*].od'; wanted names of its nets."
                + " Did you mean 'BIT[*].odd'?\n"
                + "--nets: card sum has no net 'BIT[4].odd'; wanted names of its nets."
                + " Did you mean 'BIT[3].odd'?");
    assertThatThrownBy(() -> NetChoice.of(unwired(), "--nets", List.of("T[0]")))
        .hasMessageStartingWith(
            "--nets: card sum has no line 'T[0]', and its file does not say how it is wired")
        .hasMessageContaining("Did you mean");
  }
}
