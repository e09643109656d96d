package cardproof.files;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Optional;

/** A file that another file names, from where that one lies. */
final class OtherFile {
  private OtherFile() {}

  /**
   * @param what it is, and from where it is named
   * @param wanted the same with an example
   * @return empty, with a problem said, where there is no such file
   */
  static Optional<Path> named(
      Node.Text name, Path from, String what, String wanted, Problems problems) {
    Path path;
    try {
      path = from.resolveSibling(name.text().strip());
    } catch (InvalidPathException bad) {
      problems.error(name.at(), name.described() + " is no name of a file", wanted, "");
      return Optional.empty();
    }
    if (!Files.exists(path)) {
      problems.error(
          name.at(), "there is no file '" + path + "'", what, SourceReader.neighbour(path));
      return Optional.empty();
    }
    if (Files.isDirectory(path)) {
      problems.error(name.at(), "'" + path + "' is a directory", wanted, "");
      return Optional.empty();
    }
    return Optional.of(path);
  }

  /** The same for every way of writing its name. */
  static Path identity(Path file) {
    try {
      return file.toRealPath();
    } catch (IOException unresolved) {
      return file.toAbsolutePath().normalize();
    }
  }
}
