package cardproof.files;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** How long a large card takes to read, once the program is warm. */
@Tag("bench")
class WiringBenchTest {
  private static final int WARM = 50;
  private static final int MEASURED = 20;
  private static final int TIMES = 11;

  @TempDir private Path folder;

  /** 396 relays and as many diodes, beside the adder of 12 bits of which they are eleven. */
  @Test
  void readingGrowsAboutAsTheCardDoes() throws IOException {
    Files.copy(
        Corpus.GOOD.resolve("relays").resolve("library.yaml"), folder.resolve("library.yaml"));
    String adder =
        Files.readString(Corpus.GOOD.resolve("card").resolve("adder.yaml"))
            .replace("../relays/library.yaml", "library.yaml");
    String many =
        adder
            .replace("named: BIT[i]", "named: BIT[i][w]")
            .replace("for: i = 0..11", "for: {w: 0..10, i: 0..11}");
    double oneMs = msToRead(adder, 36);
    double manyMs = msToRead(many, 36 * TIMES);
    System.out.printf(
        Locale.ROOT,
        "reading 36 relays %.1f ms, %d relays %.1f ms: %.1f times%n",
        oneMs,
        36 * TIMES,
        manyMs,
        manyMs / oneMs);
    assertThat(manyMs / oneMs).isLessThan(4 * TIMES);
  }

  private double msToRead(String text, int relays) throws IOException {
    Path file = Files.writeString(folder.resolve("card.yaml"), text);
    for (int i = 0; i < WARM; i++) {
      CardFile.read(file);
    }
    long start = System.nanoTime();
    Card card = null;
    for (int i = 0; i < MEASURED; i++) {
      card = CardFile.read(file).value();
    }
    double ms = (System.nanoTime() - start) / 1e6 / MEASURED;
    assertThat(card.wiring().orElseThrow().relays()).hasSize(relays);
    return ms;
  }
}
