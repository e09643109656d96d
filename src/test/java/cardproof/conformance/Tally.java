package cardproof.conformance;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** Writes down what became of each case on one peer, for {@link Table}. */
final class Tally {
  static final Path FOLDER = Path.of("target", "conformance");

  private final Path file;
  private final List<String> lines = new ArrayList<>();

  Tally(String peer) {
    this.file = FOLDER.resolve(peer + ".tsv");
  }

  void add(Case each, String outcome) {
    lines.add(String.join("\t", each.section(), each.name(), outcome.replaceAll("\\s+", " ")));
    try {
      Files.createDirectories(FOLDER);
      Files.write(file, lines);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
