package cardproof.files;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.ShrinkingMode;
import net.jqwik.api.lifecycle.AfterContainer;
import net.jqwik.api.lifecycle.BeforeContainer;
import org.junit.jupiter.api.Assertions;

/**
 * Good files with slips of every kind in them: whatever comes out is either a model or a refusal
 * that says where and what, and it comes soon.
 */
class MutationProperties {
  private static final List<String> TOKENS =
      List.of(
          "{",
          "}",
          "[",
          "]",
          ": ",
          ":",
          "- ",
          ", ",
          "#",
          "&a ",
          "*a",
          "!x ",
          "|",
          ">",
          "'",
          "\"",
          "? ",
          "%",
          "@",
          "`",
          "\n",
          "\t",
          "  ",
          "<<: ",
          "---\n",
          "...\n",
          "0x",
          "x",
          "released",
          "A",
          "S[3]",
          "..",
          "-1",
          "010",
          "12:30",
          "99999999999999999999",
          "ms",
          "\\",
          "\uFEFF",
          "\u2028",
          "\u0000",
          "~",
          "null",
          "repeat: 2",
          "call: put",
          "call: keep",
          "<word>",
          "<",
          "tags: ",
          "sync: true",
          "with: {word: 1}",
          "steps:",
          "1e9 s",
          "J1.1-12",
          "A[i+1]",
          "for: i = 0..99999999",
          "ports: ",
          "block: adder-bit",
          "GND",
          "+12V",
          "coil1",
          "24",
          "*i");

  private static Path folder;

  @BeforeContainer
  static void makeFolder() throws IOException {
    folder = Files.createTempDirectory("cardproof-files");
  }

  @AfterContainer
  static void removeFolder() throws IOException {
    try (Stream<Path> all = Files.walk(folder)) {
      all.sorted(Collections.reverseOrder())
          .forEach(
              path -> {
                try {
                  Files.delete(path);
                } catch (IOException e) {
                  throw new UncheckedIOException(e);
                }
              });
    }
  }

  @Provide
  Arbitrary<Path> goodFiles() {
    return Arbitraries.of(
        Stream.of("card", "pair", "plan", "fixture", "relays")
            .flatMap(kind -> Corpus.files(Corpus.GOOD.resolve(kind)).stream())
            .toList());
  }

  @Property(tries = 3000, shrinking = ShrinkingMode.OFF)
  void slipsInTokensAndLines(@ForAll("goodFiles") Path good, @ForAll long seed) throws IOException {
    Random random = new Random(seed);
    String text = Files.readString(good);
    int slips = 1 + random.nextInt(3);
    for (int i = 0; i < slips; i++) {
      text = random.nextBoolean() ? inTokens(text, random) : inLines(text, random);
    }
    readsOrRefuses(good, text.getBytes(StandardCharsets.UTF_8));
  }

  @Property(tries = 1000, shrinking = ShrinkingMode.OFF)
  void slipsInBytes(@ForAll("goodFiles") Path good, @ForAll long seed) throws IOException {
    Random random = new Random(seed);
    byte[] bytes = Files.readAllBytes(good);
    int slips = 1 + random.nextInt(3);
    for (int i = 0; i < slips; i++) {
      bytes[random.nextInt(bytes.length)] = (byte) random.nextInt(256);
    }
    readsOrRefuses(good, bytes);
  }

  private static String inTokens(String text, Random random) {
    int at = random.nextInt(text.length() + 1);
    int end = Math.min(text.length(), at + random.nextInt(6));
    String token = TOKENS.get(random.nextInt(TOKENS.size()));
    return switch (random.nextInt(3)) {
      case 0 -> text.substring(0, at) + token + text.substring(at);
      case 1 -> text.substring(0, at) + text.substring(end);
      default -> text.substring(0, at) + token + text.substring(end);
    };
  }

  private static String inLines(String text, Random random) {
    List<String> lines = new ArrayList<>(List.of(text.split("\n")));
    int at = random.nextInt(lines.size());
    switch (random.nextInt(5)) {
      case 0 -> lines.add(at, lines.get(random.nextInt(lines.size())));
      case 1 -> lines.set(at, lines.get(random.nextInt(lines.size())));
      case 2 -> lines.set(at, " ".repeat(random.nextInt(4)) + lines.get(at));
      case 3 -> lines.set(at, lines.get(at).replaceFirst("^ {1,2}", ""));
      default -> Collections.swap(lines, at, random.nextInt(lines.size()));
    }
    return String.join("\n", lines) + "\n";
  }

  private static void readsOrRefuses(Path good, byte[] bytes) throws IOException {
    String kind = good.getParent().getFileName().toString();
    Path directory = Files.createDirectories(folder.resolve(kind));
    Files.createDirectories(folder.resolve("card"));
    for (Path card : Corpus.files(Corpus.GOOD.resolve("card"))) {
      Path copy = folder.resolve("card").resolve(card.getFileName());
      if (!kind.equals("card") && !Files.exists(copy)) {
        Files.copy(card, copy);
      }
    }
    copyOthers();
    Path file = Files.write(directory.resolve("mutated.yaml"), bytes);
    try {
      Loaded<?> loaded =
          Assertions.assertTimeout(Duration.ofSeconds(10), () -> Corpus.read(file, kind));
      assertThat(loaded.value()).isNotNull();
      loaded.warnings().forEach(MutationProperties::saysWhereAndWhat);
    } catch (RefusedException refused) {
      assertThat(refused.problems()).isNotEmpty();
      refused.problems().forEach(MutationProperties::saysWhereAndWhat);
    }
  }

  /** What the plans include, and what cards with wiring name. */
  private static void copyOthers() throws IOException {
    List<String> others =
        List.of(
            "parts/registers.yaml",
            "parts/more/words.yaml",
            "relays/library.yaml",
            "netlists/flat.csv");
    for (String other : others) {
      Path copy = folder.resolve(other);
      if (!Files.exists(copy)) {
        Files.createDirectories(copy.getParent());
        Files.copy(Corpus.GOOD.resolve(other), copy);
      }
    }
  }

  private static void saysWhereAndWhat(Problem problem) {
    assertThat(problem.where()).isNotBlank();
    assertThat(problem.found()).isNotBlank();
    assertThat(problem.toString()).doesNotContain("org.yaml", "Exception", "\n");
  }
}
