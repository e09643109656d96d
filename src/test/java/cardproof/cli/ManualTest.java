package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import picocli.CommandLine.Model.OptionSpec;

/** The manual pages, as the programs that set them take them. */
class ManualTest {
  @TempDir private Path folder;

  /** Every page: the whole program's, that of each command, and those of commands below one. */
  static Stream<String> pages() {
    return Stream.concat(
        Stream.of("", "new card", "new plan"), Commands.all().getSubcommands().keySet().stream());
  }

  private Path page(String command) throws IOException {
    Cli cli = Cli.run((Object[]) ("manual " + command).split(" "));
    assertThat(cli.exitCode()).as(cli.err()).isZero();
    return Files.writeString(folder.resolve("page.1"), cli.out());
  }

  @ParameterizedTest
  @MethodSource("pages")
  void groffHasNoWarnings(String command) throws IOException {
    Tool.needs("groff");
    Tool groff = Tool.run("groff", "-man", "-ww", "-Tascii", "-z", page(command).toString());
    assertThat(groff.out()).isEmpty();
    assertThat(groff.exitCode()).isZero();
  }

  @ParameterizedTest
  @MethodSource("pages")
  void mandocHasNothingToSay(String command) throws IOException {
    Tool.needs("mandoc");
    // The pages carry no date: they are made when they are asked for.
    Tool mandoc = Tool.run("mandoc", "-T", "lint", "-W", "warning", page(command).toString());
    assertThat(mandoc.out().lines().filter(line -> !line.contains("missing date"))).isEmpty();
  }

  /** Section names in the order of man-pages(7). */
  @ParameterizedTest
  @MethodSource("pages")
  void theSectionsAreInTheirUsualOrder(String command) throws IOException {
    List<String> usual =
        List.of(
            "NAME",
            "SYNOPSIS",
            "DESCRIPTION",
            "ARGUMENTS",
            "OPTIONS",
            "COMMANDS",
            "EXIT STATUS",
            "EXAMPLES",
            "SEE ALSO");
    List<String> sections =
        Files.readAllLines(page(command)).stream()
            .filter(line -> line.startsWith(".SH "))
            .map(line -> line.substring(4).replace("\"", ""))
            .toList();
    assertThat(sections)
        .contains("NAME", "SYNOPSIS", "DESCRIPTION", "OPTIONS", "EXIT STATUS")
        .isEqualTo(usual.stream().filter(sections::contains).toList());
  }

  @ParameterizedTest
  @MethodSource("pages")
  void everyOptionIsThereWithWhatItDoes(String command) throws IOException {
    Tool.needs("groff");
    Tool set =
        Tool.run("groff", "-man", "-Tascii", "-P-c", "-P-b", "-P-u", page(command).toString());
    String text = set.out().replaceAll("\\s+", " ");
    var described = Commands.all();
    for (String name : command.isEmpty() ? new String[0] : command.split(" ")) {
      described = described.getSubcommands().get(name);
    }
    for (OptionSpec option : described.getCommandSpec().options()) {
      assertThat(text).contains(option.longestName());
      assertThat(Arrays.asList(option.description())).isNotEmpty();
      assertThat(text).contains(option.description()[0].split("[$%(]")[0].strip());
    }
  }

  @Test
  void textCannotBecomeARequest() {
    assertThat(Roff.escaped(".so /etc/passwd")).isEqualTo("\\&.so /etc/passwd");
    assertThat(Roff.escaped("'br")).startsWith("\\(aq");
    assertThat(Roff.escaped("a\\fBb-c^~`\"")).isEqualTo("a\\(rsfBb\\-c\\(ha\\(ti\\(ga\\(dq");
  }

  @Test
  void aCommandThatIsNotThereIsRefusedWithThoseThatAre() {
    Cli cli = Cli.run("manual", "rnu");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err()).contains("There is no command 'rnu'", "check, run, log, settle");
  }

  @Test
  void commandsBelowOthersHavePages() {
    assertThat(Cli.run("manual", "new", "card").out())
        .contains("CARDPROOF\\-NEW\\-CARD", "cardproof\\-new(1)");
    assertThat(Cli.run("manual", "new").out()).contains("cardproof\\-new\\-card(1)");
    Cli cli = Cli.run("manual", "new", "crad");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err()).contains("There is no command 'crad'; wanted one of card, plan");
    assertThat(Cli.run("manual", "run", "card").err()).contains("'cardproof run' has no commands");
  }
}
