package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Lists that would fill the memory many times over, if they were kept. */
@Tag("long")
class ListingMemoryTest {
  private static final int VECTORS = 1_000_000;

  @TempDir private Path folder;

  @ParameterizedTest
  @ValueSource(strings = {"", "--csv", "--json"})
  void aMillionVectorsAreListedInLittleMemory(String format) throws Exception {
    String text = Files.readString(Path.of("vectors", "sum", "card.yaml"));
    Files.writeString(folder.resolve("card.yaml"), text.substring(0, text.indexOf("\nwiring:")));
    Path plan = folder.resolve("long.yaml");
    Files.writeString(
        plan,
        "plan: long\ncard: card.yaml\nsteps:\n  - each: {A B CI: {random: "
            + VECTORS
            + ", seed: 3}}\n");
    Path list = folder.resolve("list");
    ProcessBuilder builder =
        new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-Xmx40m",
            "-cp",
            System.getProperty("java.class.path"),
            "cardproof.cli.Main",
            "check",
            plan.toString(),
            "--list");
    if (!format.isEmpty()) {
      builder.command().add(format);
    }
    Process process =
        builder
            .redirectOutput(list.toFile())
            .redirectError(folder.resolve("talk").toFile())
            .start();
    assertThat(process.waitFor()).as(Files.readString(folder.resolve("talk"))).isZero();
    assertThat(Files.size(list)).isGreaterThan(60L * VECTORS);
    assertThat(linesOf(list)).isBetween((long) VECTORS, VECTORS + 2L);
  }

  private static long linesOf(Path file) throws IOException {
    try (var lines = Files.lines(file)) {
      return lines.count();
    }
  }
}
