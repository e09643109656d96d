package cardproof.cli;

import java.nio.file.Files;
import java.nio.file.Path;

/** Where a bench log lies when nobody says. */
final class BenchLogs {
  static final String NAME = "bench-log.sqlite";

  private BenchLogs() {}

  /** The log asked for, else the one beside a plan. */
  static Path beside(Path planFile, Path asked) {
    return asked != null ? asked : planFile.resolveSibling(NAME);
  }

  /** A log named by its file, or by the folder it lies in. */
  static Path in(Path fileOrFolder) {
    return Files.isDirectory(fileOrFolder) ? fileOrFolder.resolve(NAME) : fileOrFolder;
  }
}
