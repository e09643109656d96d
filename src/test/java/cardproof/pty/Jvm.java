package cardproof.pty;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** Other virtual machines with the class path of this one. */
public final class Jvm {
  private Jvm() {}

  /** The command that runs {@code main}, quick to start; more arguments may be appended. */
  public static List<String> command(Class<?> main, String... options) {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Xshare:auto"));
    command.addAll(List.of(options));
    command.addAll(List.of("-cp", classPath(), main.getName()));
    return command;
  }

  /** The test class path; surefire may hide it behind a jar that only refers to it. */
  public static String classPath() {
    return System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
  }

  /**
   * The rest of the first line of standard output that starts with {@code prefix}.
   *
   * @throws IllegalStateException when the output ends before
   */
  public static String awaitLine(Process process, String prefix) throws IOException {
    // Neither closed nor buffered further than the process: later lines are read the same way.
    BufferedReader lines = process.inputReader(StandardCharsets.UTF_8);
    StringBuilder seen = new StringBuilder();
    for (String line = lines.readLine(); line != null; line = lines.readLine()) {
      if (line.startsWith(prefix)) {
        return line.substring(prefix.length());
      }
      seen.append(line).append('\n');
    }
    throw new IllegalStateException("'" + prefix + "' never came; the process said: " + seen);
  }
}
