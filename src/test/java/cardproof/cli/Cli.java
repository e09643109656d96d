package cardproof.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import picocli.CommandLine;

/**
 * One command line run to its end inside the test, with what it said.
 *
 * @param out standard output
 * @param err standard error
 */
record Cli(int exitCode, String out, String err) {
  static Cli run(Object... words) {
    String[] args = List.of(words).stream().map(Object::toString).toArray(String[]::new);
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    CommandLine command = Main.commandLine(args);
    command.setOut(new PrintWriter(out, true));
    command.setErr(new PrintWriter(err, true));
    int exitCode = command.execute(args);
    return new Cli(exitCode, out.toString(), err.toString());
  }

  /**
   * Copies demonstration or test files to a place of their own, where a log may lie beside them.
   */
  static Path copy(Path to, Path... files) {
    try {
      for (Path file : files) {
        Files.copy(file, to.resolve(file.getFileName()));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return to.resolve(files[files.length - 1].getFileName());
  }

  /** A demonstration plan, copied beside its card into {@code sum/}, the relay library above it. */
  static Path demonstration(Path to, String card) {
    Path from = Path.of("vectors", card);
    Path folder = to.resolve(card);
    try {
      Files.createDirectories(folder);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    copy(to, Path.of("vectors", "relays.yaml"));
    return copy(folder, from.resolve("card.yaml"), from.resolve("bring-up.yaml"));
  }
}
