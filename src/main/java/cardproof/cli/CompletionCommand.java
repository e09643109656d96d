package cardproof.cli;

import java.util.concurrent.Callable;
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
  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    String name = spec.root().name();
    spec.commandLine().getOut().print(AutoComplete.bash(name, Commands.all()));
    spec.commandLine().getOut().flush();
    return ExitCode.PASSED;
  }
}
