package cardproof.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Files that are not there, not readable, or not what they should be as files. */
class SourceReaderTest {
  @TempDir private Path folder;

  private String sum;

  @BeforeEach
  void readAGoodOne() throws IOException {
    sum = Files.readString(Corpus.GOOD.resolve("card").resolve("sum.yaml"));
  }

  private static Problem onlyProblem(Path file) {
    RefusedException refused =
        catchThrowableOfType(RefusedException.class, () -> CardFile.read(file));
    assertThat(refused).isNotNull();
    assertThat(refused.problems()).hasSize(1);
    return refused.problems().get(0);
  }

  private Path write(byte[] bytes) throws IOException {
    return Files.write(folder.resolve("card.yaml"), bytes);
  }

  private Path write(String text) throws IOException {
    return write(text.getBytes(StandardCharsets.UTF_8));
  }

  @Test
  void aMissingFileNamesItsNeighbour() throws IOException {
    write(sum);
    assertThat(onlyProblem(folder.resolve("crad.yaml")))
        .isEqualTo(
            new Problem(
                folder.resolve("crad.yaml").toString(),
                "there is no such file",
                "",
                "Did you mean 'card.yaml' beside it?"));
  }

  @Test
  void aMissingFolderIsSaid() {
    assertThat(onlyProblem(folder.resolve("sums").resolve("card.yaml")).next())
        .isEqualTo("Its directory 'sums' does not exist either");
  }

  @Test
  void aDirectoryAndNoNameAtAllAreRefused() {
    assertThat(onlyProblem(folder).found()).isEqualTo("this is a directory");
    assertThat(onlyProblem(Path.of("")).where()).isEqualTo(".");
  }

  @Test
  void aFileBehindAFileCannotBeRead() throws IOException {
    Path behind = write(sum).resolve("card.yaml");
    assertThat(onlyProblem(behind).found()).startsWith("this file cannot be read");
  }

  @Test
  void aFileThatMayNotBeReadIsSaid() throws IOException {
    Path file = write(sum);
    assumeTrue(file.toFile().setReadable(false) && !Files.isReadable(file), "root reads all");
    assertThat(onlyProblem(file).found()).isEqualTo("this file may not be read");
  }

  @Test
  void fourMebibytesAreTheEnd() throws IOException {
    String comment = "# " + "x".repeat(60) + "\n";
    int room = SourceReader.MOST_BYTES - sum.length();
    String longest = sum + comment.repeat(room / comment.length());
    longest += "#" + "x".repeat(SourceReader.MOST_BYTES - longest.length() - 1);
    assertThat(CardFile.read(write(longest)).value().name()).isEqualTo("sum");
    assertThat(onlyProblem(write(longest + "x")).found()).contains("larger than 4 MiB");
  }

  @Test
  void tooManyValuesAreRefusedBeforeTheyFillTheMemory() throws IOException {
    String many = "0, ".repeat(Screening.MOST_VALUES);
    assertThat(onlyProblem(write(sum + "title: [" + many + "0]\n")).found())
        .contains("more than 200,000");
  }

  @Test
  void aByteOrderMarkAndForeignLineEndsChangeNoPosition() throws IOException {
    String bad = sum.replace("limit: 3 A", "limit: 3");
    for (String text :
        List.of(
            bad,
            "\uFEFF" + bad,
            bad.replace("\n", "\r\n"),
            bad.replace("\n", "\r"),
            "\uFEFF" + bad.replace("\n", "\r\n"))) {
      Path file = write(text);
      assertThat(onlyProblem(file).where()).isEqualTo(file + ":3:32");
    }
  }

  @Test
  void aByteThatIsNoUtf8IsPlacedInCharacters() throws IOException {
    byte[] head = "card: sum\ntitle: \u00E4\u20AC\uD83D\uDD0C".getBytes(StandardCharsets.UTF_8);
    byte[] bytes = java.util.Arrays.copyOf(head, head.length + 1);
    bytes[head.length] = (byte) 0xC3;
    Path file = write(bytes);
    assertThat(onlyProblem(file).where()).isEqualTo(file + ":2:11");
    assertThat(onlyProblem(file).found()).startsWith("byte 0xC3");
  }

  @Test
  void columnsCountCharactersAndNotHalves() throws IOException {
    Path file = write(sum.replace("title: 12-bit sum card", "title: \uD83D\uDD0C, \u0007"));
    assertThat(onlyProblem(file).where()).isEqualTo(file + ":2:11");
  }
}
