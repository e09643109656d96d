package cardproof.link.serial;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** A directory that only this user can look into; thread-safe, may be closed twice. */
final class PrivateDirectory implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(PrivateDirectory.class);

  private final Path path;

  private PrivateDirectory(Path path) {
    this.path = path;
  }

  /** Made with mode 0700, as {@link Files#createTempDirectory} promises on POSIX systems. */
  static PrivateDirectory create(String prefix) {
    try {
      return new PrivateDirectory(Files.createTempDirectory(prefix));
    } catch (IOException e) {
      throw new UncheckedIOException("no private directory for the serial library", e);
    }
  }

  Path path() {
    return path;
  }

  /** Deletes it with what it holds; what a system will not let go of is left. */
  @Override
  public void close() {
    for (Path each : contents()) {
      try {
        Files.deleteIfExists(each);
      } catch (IOException e) {
        LOG.debug("{} is left behind", each, e);
      }
    }
  }

  /** Deepest first. */
  private List<Path> contents() {
    if (!Files.exists(path)) {
      return List.of();
    }
    try (Stream<Path> all = Files.walk(path)) {
      return all.sorted(Comparator.reverseOrder()).toList();
    } catch (IOException e) {
      LOG.debug("{} cannot be listed", path, e);
      return List.of();
    }
  }
}
