package cardproof.cli;

import java.util.Optional;
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
      arity = "0..1",
      description = "command to describe (default: the whole program)")
  private Optional<String> command = Optional.empty();

  @Override
  public Integer call() {
    CommandLine root = Commands.all();
    CommandLine described = command.map(name -> named(root, name)).orElse(root);
    spec.commandLine().getOut().print(new ManualPage(described.getCommandSpec()).text());
    spec.commandLine().getOut().flush();
    return ExitCode.PASSED;
  }

  private CommandLine named(CommandLine root, String name) {
    CommandLine found = root.getSubcommands().get(name);
    if (found == null) {
      throw new ParameterException(
          spec.commandLine(),
          "There is no command '"
              + name
              + "'; wanted one of "
              + String.join(", ", root.getSubcommands().keySet()));
    }
    return found;
  }
}
