package cardproof;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** Programs that know nothing of this project and are asked for their opinion. */
public final class OutsideTools {
  private static final String REQUIRE = "CARDPROOF_REQUIRE_TOOLS";

  private OutsideTools() {}

  /**
   * Skips the test, saying why, where one of them is not installed; fails where it has to be.
   *
   * @param what they are together
   * @param install name of the Debian package that has them
   */
  public static void assumeInstalled(String what, String install, String... programs) {
    String path = System.getenv().getOrDefault("PATH", "");
    List<String> missing =
        Stream.of(programs)
            .filter(
                tool ->
                    Stream.of(path.split(File.pathSeparator))
                        .noneMatch(place -> Files.isExecutable(Path.of(place, tool))))
            .toList();
    if ("1".equals(System.getenv(REQUIRE))) {
      assertThat(missing).as("tools that %s=1 asks for and PATH does not have", REQUIRE).isEmpty();
    }
    String reason =
        "skipped: no " + what + ", PATH lacks " + missing + " (install " + install + ")";
    if (!missing.isEmpty()) {
      System.out.println(reason);
    }
    assumeTrue(missing.isEmpty(), reason);
  }

  /**
   * Runs a program to its end, which must be a good one.
   *
   * @param written where to keep what it wrote to its standard streams
   * @return what that was, by lines
   */
  public static List<String> call(Path written, String... command)
      throws IOException, InterruptedException {
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
