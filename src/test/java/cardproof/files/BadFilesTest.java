package cardproof.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Every bad file is refused in exactly the words that stand in the text file beside it. To write
 * those anew after a change of wording: {@code mvn test -Dtest=BadFilesTest -Dgoldens=write}, and
 * then read what changed.
 */
class BadFilesTest {
  private static final boolean WRITE = "write".equals(System.getProperty("goldens"));

  static Stream<Path> badFiles() {
    return Stream.of("card", "pair", "plan", "fixture", "relays")
        .flatMap(kind -> Corpus.files(Corpus.BAD.resolve(kind)).stream());
  }

  @Test
  void thereAreManyOfThem() {
    assertThat(badFiles().count()).isGreaterThan(180);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("badFiles")
  void isRefusedInTheseWords(Path file) throws IOException {
    RefusedException refused =
        catchThrowableOfType(RefusedException.class, () -> Corpus.read(file));
    assertThat(refused).as("%s must be refused", file).isNotNull();
    assertThat(refused.problems()).allSatisfy(BadFilesTest::saysWhereAndWhat);
    String directory = file.getParent() + file.getFileSystem().getSeparator();
    String words =
        refused.problems().stream()
            .map(problem -> problem.toString().replace(directory, "") + "\n")
            .collect(Collectors.joining());
    Path golden = Path.of(file.toString().replaceFirst("yaml$", "txt"));
    if (WRITE) {
      Files.writeString(golden, words);
    }
    assertThat(words).isEqualTo(Files.readString(golden, StandardCharsets.UTF_8));
  }

  private static void saysWhereAndWhat(Problem problem) {
    assertThat(problem.where()).isNotBlank();
    assertThat(problem.found()).isNotBlank().doesNotEndWith(".").doesNotContain("\n", "org.yaml");
    assertThat(problem.wanted()).doesNotEndWith(".");
    assertThat(problem.toString()).doesNotContain("null", "\n");
  }
}
