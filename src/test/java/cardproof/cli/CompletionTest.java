package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The completion script, as bash itself takes it. */
class CompletionTest {
  @TempDir private Path folder;
  private Path script;

  @BeforeEach
  void writeScript() throws IOException {
    Tool.needs("bash");
    Cli cli = Cli.run("completion");
    assertThat(cli.exitCode()).isZero();
    script = Files.writeString(folder.resolve("completion.sh"), cli.out());
  }

  /** What bash offers for the last of these words. */
  private List<String> complete(String... words) {
    String ask =
        """
        # The shell's own compopt works only while somebody presses TAB.
        compopt() { :; }
        source "$1"
        shift
        set -- cardproof "$@"
        COMP_WORDS=("$@")
        COMP_CWORD=$(($# - 1))
        COMP_LINE="$*"
        COMP_POINT=${#COMP_LINE}
        completer=$(complete -p cardproof | sed 's/.* -F \\([^ ]*\\).*/\\1/')
        "$completer"
        printf '%s\\n' "${COMPREPLY[@]}"
        """;
    String[] line = new String[words.length + 5];
    System.arraycopy(new String[] {"bash", "-c", ask, "bash", script.toString()}, 0, line, 0, 5);
    System.arraycopy(words, 0, line, 5, words.length);
    Tool bash = Tool.run(line);
    assertThat(bash.exitCode()).as(bash.out()).isZero();
    return bash.out().lines().map(String::strip).filter(word -> !word.isEmpty()).toList();
  }

  @Test
  void bashReadsItWithoutComplaint() {
    Tool bash = Tool.run("bash", "-n", script.toString());
    assertThat(bash.out()).isEmpty();
    assertThat(bash.exitCode()).isZero();
  }

  @Test
  void commandsAreCompleted() {
    assertThat(complete("ru")).containsExactly("run");
    assertThat(complete("che")).containsExactly("check");
    assertThat(complete("")).contains("run", "check", "log", "ports", "completion", "manual");
    assertThat(complete("zz")).isEmpty();
  }

  @Test
  void optionsAreCompletedByTheirCommand() {
    assertThat(complete("run", "--stop")).containsExactly("--stop-on-fail");
    assertThat(complete("check", "--li")).containsExactly("--list");
    assertThat(complete("check", "--stop")).isEmpty();
  }

  @Test
  void fileNamesAreCompletedWhereFilesAreMeant() throws IOException {
    Path plan = Files.createFile(folder.resolve("bring-up.yaml"));
    assertThat(complete("run", folder.resolve("bring").toString()))
        .containsExactly(plan.toString());
  }

  @Test
  void kindsAndCommandsAreCompletedWhereTheyAreMeant() {
    assertThat(complete("schema", "")).contains("card", "plan", "procedures", "fixture");
    assertThat(complete("schema", "fi")).containsExactly("fixture");
    assertThat(complete("manual", "")).contains("check", "run", "new", "card", "plan");
    assertThat(complete("manual", "ru")).containsExactly("run");
    assertThat(complete("manual", "new", "ca")).containsExactly("card");
  }

  @Test
  void itSaysHowToUseItAndNoOtherWay() throws IOException {
    assertThat(Files.readString(script))
        .startsWith("#!/usr/bin/env bash\n# TAB completion for cardproof in bash and zsh.")
        .contains("#   source <(cardproof completion)")
        .doesNotContain("YOUR_APP_HOME", "bash_profile");
  }

  @Test
  void itIsTheSameEachTime() {
    assertThat(Cli.run("completion").out()).isEqualTo(Cli.run("completion").out());
  }
}
