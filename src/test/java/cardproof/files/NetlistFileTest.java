package cardproof.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import cardproof.card.Card;
import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Lamp;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wiring;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class NetlistFileTest {
  @TempDir private Path folder;

  private static Card read(String name) {
    return CardFile.read(Corpus.GOOD.resolve("card").resolve(name + ".yaml")).value();
  }

  @Test
  void readsColumnsInAnyOrderAndAmongOthers() {
    Loaded<Card> loaded = CardFile.read(Corpus.GOOD.resolve("card").resolve("flat.yaml"));
    assertThat(loaded.warnings()).isEmpty();
    assertThat(loaded.sources())
        .extracting(path -> path.getFileName().toString())
        .containsExactly("flat.yaml", "library.yaml", "flat.csv");
    Wiring wiring = loaded.value().wiring().orElseThrow();
    assertThat(Circuit.ends(wiring)).isEqualTo("/A0 /A1 OFF /Q IN GND");
    assertThat(wiring.parts()).hasSize(9);
    Relay k1 = (Relay) wiring.part("K1").orElseThrow();
    assertThat(k1.type().name()).isEqualTo("PT-4-12V");
    assertThat(k1.poles().get(0).nc()).isEqualTo(Terminal.NOT_WIRED);
    assertThat(k1.poles().get(0).no()).isEqualTo(wiring.net("raw"));
    // the entry that names it holds against the one with a star
    assertThat(((Relay) wiring.part("K3").orElseThrow()).type().name()).isEqualTo("made-up-1");
    assertThat(((Diode) wiring.part("D2").orElseThrow()).anode()).isEqualTo(wiring.net("/A1"));
    assertThat(((Lamp) wiring.part("L1").orElseThrow()).milliamps()).isEqualTo(40);
    assertThat(wiring.part("L1").orElseThrow().at().toString()).endsWith("flat.csv:26:1");
    assertThat(wiring.nets().get(wiring.net("raw")).at().toString()).endsWith("flat.csv:14:1");
    assertThat(wiring.powerPins())
        .containsEntry(wiring.supply(), "J9.1")
        .containsEntry(wiring.ground(), "J9.2")
        .hasSize(2);
  }

  @ParameterizedTest
  @ValueSource(strings = {"adder", "flat", "every-part"})
  void whatIsWrittenReadsAsTheSameCircuit(String name) throws IOException {
    Card card = read(name);
    NetlistFile.write(card, folder.resolve("out.csv"));
    Files.copy(
        Corpus.GOOD.resolve("relays").resolve("library.yaml"), folder.resolve("library.yaml"));
    String yaml = Files.readString(Corpus.GOOD.resolve("card").resolve(name + ".yaml"));
    String flat =
        yaml.substring(0, yaml.indexOf("wiring:"))
            + NetlistFile.wiringText(card, "library.yaml", "out.csv");
    Path file = Files.writeString(folder.resolve("card.yaml"), flat);

    Loaded<Card> again = CardFile.read(file);

    Wiring before = card.wiring().orElseThrow();
    Wiring after = again.value().wiring().orElseThrow();
    assertThat(again.warnings()).isEmpty();
    assertThat(Circuit.parts(after)).isEqualTo(Circuit.parts(before));
    assertThat(Circuit.ends(after)).isEqualTo(Circuit.ends(before));
    assertThat(after.powerPins().values())
        .containsExactlyInAnyOrderElementsOf(before.powerPins().values());
    assertThat(again.value().relays()).isEqualTo(card.relays());
    StringBuilder twice = new StringBuilder();
    NetlistFile.write(again.value(), twice);
    assertThat(twice.toString()).isEqualTo(Files.readString(folder.resolve("out.csv")));
  }

  @Test
  void rowsEndAsTheStandardWantsThem() throws IOException {
    StringBuilder text = new StringBuilder();
    NetlistFile.write(read("flat"), text);
    // RFC 4180 section 2: CRLF behind each row, a header row in the same form
    assertThat(text.toString())
        .startsWith("reference,pin,net\r\nJ1,1,/A0\r\nJ1,2,/A1\r\n")
        .endsWith("R1,2,GND\r\n");
  }

  @Test
  void aCardWithoutWiringHasNone() {
    Card bare = read("sum");
    assertThatThrownBy(() -> NetlistFile.write(bare, new StringBuilder()))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("card sum has no wiring");
  }
}
