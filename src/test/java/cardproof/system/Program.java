package cardproof.system;

import cardproof.cli.Main;
import cardproof.pty.Jvm;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** Cardproof itself in a process of its own, with a home of its own; no terminal. */
final class Program implements AutoCloseable {
  private static final long LONGEST_S = 60;

  private final Process process;
  private final Path out;
  private final Path err;

  private Program(Process process, Path out, Path err) {
    this.process = process;
    this.out = out;
    this.err = err;
  }

  /**
   * @param home an existing directory; takes the debug log, and what the program says
   */
  static Program start(Path home, String... arguments) throws IOException {
    Path out = Files.createTempFile(home, "out", ".txt");
    Path err = Files.createTempFile(home, "err", ".txt");
    List<String> command = new ArrayList<>(Jvm.command(Main.class));
    command.addAll(List.of(arguments));
    ProcessBuilder builder =
        new ProcessBuilder(command).redirectOutput(out.toFile()).redirectError(err.toFile());
    builder.environment().put("XDG_STATE_HOME", home.toString());
    builder.environment().remove("JAVA_TOOL_OPTIONS"); // the virtual machine would say so
    return new Program(builder.start(), out, err);
  }

  /** Runs it to its end. */
  static Ended run(Path home, String... arguments) throws Exception {
    try (Program program = start(home, arguments)) {
      return program.await();
    }
  }

  Process process() {
    return process;
  }

  boolean isAlive() {
    return process.isAlive();
  }

  Ended await() throws Exception {
    if (!process.waitFor(LONGEST_S, TimeUnit.SECONDS)) {
      throw new IllegalStateException(
          "still there after " + LONGEST_S + " s; it said " + Files.readString(err));
    }
    long atNs = System.nanoTime();
    return new Ended(process.exitValue(), Files.readString(out), Files.readString(err), atNs);
  }

  /** Ends it where a failed test left it running. */
  @Override
  public void close() {
    process.destroyForcibly();
  }
}
