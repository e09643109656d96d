package cardproof.bits;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** Icarus Verilog, a simulator for IEEE 1364-2005 that knows nothing of this project. */
final class VerilogSimulator {
  private static final String REQUIRE = "CARDPROOF_REQUIRE_TOOLS";

  private final Path directory;

  VerilogSimulator(Path directory) {
    this.directory = directory;
  }

  /** Skips the test, saying why, where it is not installed; fails where it has to be. */
  static void assumeInstalled() {
    String path = System.getenv().getOrDefault("PATH", "");
    List<String> missing =
        Stream.of("iverilog", "vvp")
            .filter(
                tool ->
                    Stream.of(path.split(File.pathSeparator))
                        .noneMatch(place -> Files.isExecutable(Path.of(place, tool))))
            .toList();
    if ("1".equals(System.getenv(REQUIRE))) {
      assertThat(missing).as("tools that %s=1 asks for and PATH does not have", REQUIRE).isEmpty();
    }
    String reason = "skipped: no Verilog simulator, PATH lacks " + missing + " (install iverilog)";
    if (!missing.isEmpty()) {
      System.out.println(reason);
    }
    assumeTrue(missing.isEmpty(), reason);
  }

  /** Compiles one file of Verilog and runs it, and returns the lines it printed. */
  List<String> run(String source) throws IOException, InterruptedException {
    Path text = Files.writeString(directory.resolve("trial.v"), source);
    Path compiled = directory.resolve("trial.vvp");
    call("iverilog", "-g2005", "-o", compiled.toString(), text.toString());
    return call("vvp", "-n", compiled.toString());
  }

  /** What the command wrote to its standard streams. */
  private List<String> call(String... command) throws IOException, InterruptedException {
    Path written = directory.resolve("written.txt");
    Process process =
        new ProcessBuilder(command)
            .redirectErrorStream(true)
            .redirectOutput(written.toFile())
            .start();
    int code = process.waitFor();
    List<String> lines = Files.readAllLines(written);
    assertThat(code)
        .as(() -> command[0] + " ends with " + lines.subList(0, Math.min(10, lines.size())))
        .isZero();
    return lines;
  }
}
