package cardproof.cli;

import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import picocli.AutoComplete;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** Prints a script by which bash and zsh complete commands, options and file names. */
@Command(
    name = "completion",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description = "Prints a completion script for bash and zsh.",
    footerHeading = "%nExample:%n",
    footer = "  source <(cardproof completion)")
final class CompletionCommand implements Callable<Integer> {
  private static final String HEAD =
      """
      #!/usr/bin/env bash
      # TAB completion for %1$s in bash and zsh. To have it in every new shell, add to ~/.bashrc or ~/.zshrc:
      #   source <(%1$s completion)
      # or write it to a file once, and source that:
      #   %1$s completion > ~/.%1$s-completion.sh
      #   source ~/.%1$s-completion.sh
      # Make it again after an update of %1$s.

      """;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    String name = spec.root().name();
    String script = AutoComplete.bash(name, Commands.all());
    spec.commandLine().getOut().print(String.format(HEAD, name) + withoutHead(script));
    spec.commandLine().getOut().flush();
    return ExitCode.PASSED;
  }

  /** Without the comments at its top, which tell of a way to install it that is not ours. */
  private static String withoutHead(String script) {
    return script
        .lines()
        .dropWhile(line -> line.startsWith("#") || line.isBlank())
        .collect(Collectors.joining("\n", "", "\n"));
  }
}
