package cardproof.pty;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;

/** Other virtual machines with the class path of this one. */
public final class Jvm {
  private static final long LIMIT_S = 20;

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
   * The rest of the first line of standard output that starts with {@code prefix}. A process that
   * has not written it within 20 s is killed.
   *
   * @throws IllegalStateException when the output ends before
   */
  public static String awaitLine(Process process, String prefix) throws IOException {
    AtomicBoolean came = new AtomicBoolean();
    CompletableFuture.delayedExecutor(LIMIT_S, TimeUnit.SECONDS)
        .execute(
            () -> {
              if (!came.get()) {
                process.destroyForcibly();
              }
            });
    // Not closed: later lines of the same process are read through the same reader.
    BufferedReader lines = process.inputReader(StandardCharsets.UTF_8);
    StringBuilder seen = new StringBuilder();
    for (String line = lines.readLine(); line != null; line = lines.readLine()) {
      if (line.startsWith(prefix)) {
        came.set(true);
        return line.substring(prefix.length());
      }
      seen.append(line).append('\n');
    }
    throw new IllegalStateException("'" + prefix + "' never came; the process said: " + seen);
  }
}
