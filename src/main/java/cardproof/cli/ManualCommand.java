package cardproof.cli;

import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Prints a page for {@code man}, made from the same definitions as {@code --help}. */
@Command(
    name = "manual",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description = "Prints the manual page of the program or of one command, for man.",
    footerHeading = "%nExample:%n",
    footer = "  cardproof manual run | man -l -")
final class ManualCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(
      paramLabel = "COMMAND",
      arity = "0..*",
      completionCandidates = CommandNames.class,
      description = "command to describe, such as run or new card (default: the whole program)")
  private List<String> command = List.of();

  @Override
  public Integer call() {
    CommandLine described = Commands.all();
    for (String name : command) {
      described = named(described, name);
    }
    spec.commandLine().getOut().print(new ManualPage(described.getCommandSpec()).text());
    spec.commandLine().getOut().flush();
    return ExitCode.PASSED;
  }

  private CommandLine named(CommandLine parent, String name) {
    CommandLine found = parent.getSubcommands().get(name);
    if (found == null) {
      String full = parent.getCommandSpec().qualifiedName();
      throw new ParameterException(
          spec.commandLine(),
          parent.getSubcommands().isEmpty()
              ? "'" + full + "' has no commands below it, so no '" + name + "'"
              : "There is no command '"
                  + name
                  + "'; wanted one of "
                  + String.join(", ", parent.getSubcommands().keySet()));
    }
    return found;
  }
}
