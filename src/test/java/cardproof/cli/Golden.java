package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Whole outputs that are kept in files. After a change that is meant: {@code mvn test
 * -Dtest=CheckGoldensTest -Dgoldens=write}, and then they are read.
 */
final class Golden {
  private static final boolean WRITE = "write".equals(System.getProperty("goldens"));
  private static final Path FOLDER = Path.of("src", "test", "resources", "cli", "goldens");

  private Golden() {}

  static void assertSame(String name, String text) {
    Path file = FOLDER.resolve(name);
    try {
      if (WRITE) {
        Files.writeString(file, text);
      }
      assertThat(text).as(name).isEqualTo(Files.readString(file));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
