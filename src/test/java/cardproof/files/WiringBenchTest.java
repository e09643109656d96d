package cardproof.files;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** How long a large card takes to read, once the program is warm. */
@Tag("bench")
class WiringBenchTest {
  private static final int WARM = 50;
  private static final int MEASURED = 20;
  private static final double LONGEST_MS = 100;

  @TempDir private Path folder;

  /** 396 relays and as many diodes: the adder of 12 bits eleven times over. */
  @Test
  void aCardOfFourHundredRelaysReadsInATenthOfASecond() throws IOException {
    String adder = Files.readString(Corpus.GOOD.resolve("card").resolve("adder.yaml"));
    String many =
        adder
            .replace("../relays/library.yaml", "library.yaml")
            .replace("named: BIT[i]", "named: BIT[i][w]")
            .replace("for: i = 0..11", "for: {w: 0..10, i: 0..11}");
    Files.copy(
        Corpus.GOOD.resolve("relays").resolve("library.yaml"), folder.resolve("library.yaml"));
    Path file = Files.writeString(folder.resolve("card.yaml"), many);
    for (int i = 0; i < WARM; i++) {
      CardFile.read(file);
    }
    long start = System.nanoTime();
    Card card = null;
    for (int i = 0; i < MEASURED; i++) {
      card = CardFile.read(file).value();
    }
    double ms = (System.nanoTime() - start) / 1e6 / MEASURED;
    assertThat(card.wiring().orElseThrow().relays()).hasSize(396);
    assertThat(ms).as("ms to read a card of 396 relays").isLessThan(LONGEST_MS);
  }
}
