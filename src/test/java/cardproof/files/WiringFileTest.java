package cardproof.files;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.RelayFigures;
import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Fuse;
import cardproof.card.wiring.Lamp;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Resistor;
import cardproof.card.wiring.Spot;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wire;
import cardproof.card.wiring.Wiring;
import cardproof.text.Problem;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class WiringFileTest {
  private static Loaded<Card> read(String name) {
    return CardFile.read(Corpus.GOOD.resolve("card").resolve(name + ".yaml"));
  }

  private static Wiring wiring(String name) {
    return read(name).value().wiring().orElseThrow();
  }

  private static String net(Wiring wiring, int number) {
    return number == Terminal.NOT_WIRED ? "" : wiring.nets().get(number).name();
  }

  @Test
  void readsTheAdder() {
    Loaded<Card> loaded = read("adder");
    assertThat(loaded.warnings()).isEmpty();
    assertThat(loaded.sources())
        .extracting(path -> path.getFileName().toString())
        .containsExactly("adder.yaml", "library.yaml");
    Wiring wiring = loaded.value().wiring().orElseThrow();
    assertThat(wiring.relays()).hasSize(36);
    assertThat(wiring.parts()).hasSize(1 + 12 * (3 + 3 + 1) + 2 + 1);
    assertThat(net(wiring, wiring.supply())).isEqualTo("IN");
    assertThat(net(wiring, wiring.ground())).isEqualTo("GND");
    assertThat(wiring.powerPins()).isEqualTo(Map.of(wiring.supply(), "J9.1"));
    assertThat(wiring.lineNets()).hasSize(12 + 12 + 1 + 12 + 1);
    assertThat(net(wiring, wiring.lineNets().get(3))).isEqualTo("A[3]");
    assertThat(net(wiring, wiring.lineNets().get(37))).isEqualTo("CO");
  }

  @Test
  void partsOfABlockHaveTheUsesNameAndTheBlocksPlace() {
    Wiring wiring = wiring("adder");
    Relay relay = (Relay) wiring.part("BIT[3].A").orElseThrow();
    assertThat(relay.socket()).isEqualTo("BIT[3].XA");
    assertThat(relay.type().name()).isEqualTo("PT-4-12V");
    assertThat(relay.type().at().file()).endsWith("library.yaml");
    assertThat(relay.at().line()).isEqualTo(30);
    assertThat(relay.at().column()).isEqualTo(18);
    assertThat(net(wiring, relay.coil1())).isEqualTo("A[3]");
    assertThat(net(wiring, relay.poles().get(0).com())).isEqualTo("+12V");
    assertThat(net(wiring, relay.poles().get(0).no())).isEqualTo("BIT[3].p1");
    assertThat(net(wiring, relay.poles().get(2).com())).isEqualTo("C[3]");
    assertThat(relay.poles().get(1).nc()).isEqualTo(Terminal.NOT_WIRED);
    assertThat(relay.poles().get(3).com()).isEqualTo(Terminal.NOT_WIRED);
    // bit 3 begins the second row: 10 + 100 * 0, 10 + 40 * 1
    assertThat(relay.spot()).contains(new Spot(10, 50));
    assertThat(wiring.part("BIT[3].B").orElseThrow().spot()).contains(new Spot(40, 50));
    Relay carry = (Relay) wiring.part("BIT[11].C").orElseThrow();
    assertThat(carry.socket()).isEqualTo("BIT[11].C");
    assertThat(carry.spot()).isEmpty();
    assertThat(net(wiring, carry.poles().get(0).no())).isEqualTo("BIT[11].even");
    Diode diode = (Diode) wiring.part("BIT[3].A.flyback").orElseThrow();
    assertThat(net(wiring, diode.anode())).isEqualTo("GND");
    assertThat(net(wiring, diode.cathode())).isEqualTo("A[3]");
  }

  @Test
  void netsStandWhereTheyAreFirstNamed() {
    Wiring wiring = wiring("adder");
    assertThat(wiring.nets().get(wiring.net("IN")).at().line()).isEqualTo(23);
    assertThat(wiring.nets().get(wiring.net("S[7]")).at().line()).isEqualTo(12);
    assertThat(wiring.nets().get(wiring.net("BIT[5].odd")).at().line()).isEqualTo(46);
  }

  @Test
  void whatWasReadAdds() {
    Wiring wiring = wiring("adder");
    Random random = new Random(5);
    ContactSketch sketch = new ContactSketch(wiring);
    for (int i = 0; i < 300; i++) {
      int a = i == 0 ? 0xFFF : random.nextInt(0x1000);
      int b = i == 0 ? 0 : random.nextInt(0x1000);
      int carry = i == 0 ? 1 : random.nextInt(2);
      BitSet driven = new BitSet();
      for (int bit = 0; bit < 12; bit++) {
        driven.set(wiring.lineNets().get(bit), (a >> bit & 1) == 1);
        driven.set(wiring.lineNets().get(12 + bit), (b >> bit & 1) == 1);
      }
      driven.set(wiring.lineNets().get(24), carry == 1);
      BitSet on = sketch.settle(driven);
      int sum = 0;
      for (int bit = 0; bit < 13; bit++) {
        sum |= on.get(wiring.lineNets().get(25 + bit)) ? 1 << bit : 0;
      }
      assertThat(sum).as("%d + %d + %d", a, b, carry).isEqualTo(a + b + carry);
    }
  }

  @Test
  void readsEveryKindOfPartHoweverItIsWritten() {
    Wiring wiring = wiring("every-part");
    assertThat(wiring.parts().stream().map(Part::name))
        .startsWith("F", "N.B[0].K", "N.B[0].R", "N.B[1].K")
        .contains("N.L[3]", "low", "low.flyback", "LOW2", "LOW2.flyback", "D[1][0]", "W[3]");
    assertThat(((Fuse) wiring.part("F").orElseThrow()).milliamps()).isEqualTo(1500);
    assertThat(((Lamp) wiring.part("N.L[0]").orElseThrow()).ohms()).isEqualTo(300);
    assertThat(((Resistor) wiring.part("N.B[0].R").orElseThrow()).ohms()).isEqualTo(4700);
    assertThat(((Resistor) wiring.part("R[2]").orElseThrow()).ohms()).isEqualTo(1000);
    Relay relay = (Relay) wiring.part("N.B[2].K").orElseThrow();
    // a whole bus was given to the outer block's ports, and one of its lines to the inner one's
    assertThat(net(wiring, relay.coil1())).isEqualTo("D[2]");
    assertThat(net(wiring, relay.poles().get(1).no())).isEqualTo("Q[6]");
    assertThat(net(wiring, relay.poles().get(1).com())).isEqualTo("GO");
    assertThat(net(wiring, relay.poles().get(0).nc())).isEqualTo("N.B[2].spare");
    assertThat(relay.socket()).isEqualTo("N.B[2].X");
    // places add up: 10 + 25 * 2 + 2.54, 20 + 0 + 10
    assertThat(wiring.part("N.B[2].R").orElseThrow().spot()).contains(new Spot(62.54, 30));
    Diode diode = (Diode) wiring.part("D[1][0]").orElseThrow();
    assertThat(net(wiring, diode.anode())).isEqualTo("D[2]");
    Wire wire = (Wire) wiring.part("W[3]").orElseThrow();
    // (3 + 11) % 12 / 4
    assertThat(net(wiring, wire.first())).isEqualTo("Q[0]");
  }

  @Test
  void aDiodeAcrossACoilPointsAwayFromGroundWhicheverEndThatIs() {
    Wiring wiring = wiring("every-part");
    for (String name : List.of("low.flyback", "LOW2.flyback")) {
      Diode diode = (Diode) wiring.part(name).orElseThrow();
      assertThat(net(wiring, diode.anode())).isEqualTo("GND");
      assertThat(net(wiring, diode.cathode())).isEqualTo("low.in");
    }
  }

  @Test
  void figuresFollowFromWhatIsWired() {
    // PT with diodes across its coils: operate 15, release with diode 18, bounce 8; in silence move
    // the relay of an addend and behind it that of the next carry
    assertThat(read("adder").value().relays())
        .isEqualTo(new RelayFigures(2, 15_000, 18_000, 8_000));
    // stated stages and release, the rest from the types
    assertThat(read("every-part").value().relays())
        .isEqualTo(new RelayFigures(3, 15_000, 20_000, 8_000));
  }

  @Test
  void warnsOfBlocksThatWereHardlyMeantSo(@TempDir Path folder) throws IOException {
    String adder = Files.readString(Corpus.GOOD.resolve("card").resolve("adder.yaml"));
    String slips =
        adder
            .replace("../relays", Corpus.GOOD.resolve("relays").toAbsolutePath().toString())
            .replace("{11: sum, 14: even, 12: odd}", "{11: 'S[0]', 14: even, 12: odd}")
            .replace("ends: [sum, GND]", "ends: [+12V, GND]")
            .replace(
                "  parts:\n    - fuse",
                "    spare: {ports: [], parts: [{wire: W, ends: 'x, y'}]}\n  parts:\n    - fuse");
    Path file = Files.writeString(folder.resolve("card.yaml"), slips);
    assertThat(CardFile.read(file).warnings())
        .extracting(Problem::found)
        .containsExactly(
            "no part of block 'adder-bit' is on its port 'sum'",
            "'S[0]' in block 'adder-bit' is a net of the block's own, and no line of the card",
            "block 'spare' is never used");
  }

  @Test
  void warnsOfKindsAndPinsThatANetlistDoesNotUse(@TempDir Path folder) throws IOException {
    String flat = Files.readString(Corpus.GOOD.resolve("card").resolve("flat.yaml"));
    String slips =
        flat.replace("../relays", Corpus.GOOD.resolve("relays").toAbsolutePath().toString())
            .replace("../netlists/", "")
            .replace("    X1: connector", "    X1: connector\n    Y*: wire")
            .replace("J1.1-2", "J1.11-12");
    Files.copy(Corpus.GOOD.resolve("netlists").resolve("flat.csv"), folder.resolve("flat.csv"));
    Path file = Files.writeString(folder.resolve("card.yaml"), slips);
    assertThat(CardFile.read(file).warnings())
        .extracting(Problem::found)
        .containsExactly(
            "pins that are on no net of 'flat.csv': J1.11 (A[0]), J1.12 (A[1])",
            "no reference of the netlist takes its kind from 'Y*'");
  }

  @Test
  void aPlanNamesTheFilesOfItsCard(@TempDir Path folder) throws IOException {
    Path card = Corpus.GOOD.resolve("card").resolve("adder.yaml").toAbsolutePath();
    Path plan = folder.resolve("plan.yaml");
    Files.writeString(plan, "plan: add\ncard: " + card + "\nsteps: [{drive: {A: 1, B: 1}}]\n");
    assertThat(PlanFile.read(plan).sources())
        .extracting(path -> path.getFileName().toString())
        .containsExactly("plan.yaml", "adder.yaml", "library.yaml");
  }
}
