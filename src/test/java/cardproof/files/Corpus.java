package cardproof.files;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** The example files of the tests, good and bad, one directory for each kind. */
final class Corpus {
  static final Path ROOT = Path.of("src", "test", "resources", "files");
  static final Path GOOD = ROOT.resolve("good");
  static final Path BAD = ROOT.resolve("bad");

  private Corpus() {}

  /** The files of one kind, by name. */
  static List<Path> files(Path directory) {
    try (Stream<Path> files = Files.list(directory)) {
      return files.filter(file -> file.toString().endsWith(".yaml")).sorted().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Reads a file as what its directory says it is. */
  static Loaded<?> read(Path file) {
    return read(file, file.getParent().getFileName().toString());
  }

  static Loaded<?> read(Path file, String kind) {
    return switch (kind) {
      case "card", "pair" -> CardFile.read(file);
      case "plan" -> PlanFile.read(file);
      case "relays" -> RelayTypesFile.read(file);
      case "fixture" -> FixtureFile.read(file);
      default -> throw new IllegalArgumentException(kind);
    };
  }
}
