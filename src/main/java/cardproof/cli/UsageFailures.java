package cardproof.cli;

import cardproof.text.Nearest;
import java.io.PrintWriter;
import java.util.HashSet;
import java.util.Set;
import picocli.CommandLine;
import picocli.CommandLine.IParameterExceptionHandler;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;

/** Says what is wrong with a command line, in a line or two and with the way to the help. */
final class UsageFailures implements IParameterExceptionHandler {
  @Override
  public int handleParseException(ParameterException wrong, String[] args) {
    CommandLine command = wrong.getCommandLine();
    PrintWriter err = command.getErr();
    err.println(wrong.getMessage() + ".");
    if (wrong instanceof UnmatchedArgumentException unmatched) {
      unmatched.getUnmatched().stream()
          .findFirst()
          .flatMap(word -> Nearest.to(word, known(command)))
          .ifPresent(name -> err.println("Did you mean '" + name + "'?"));
    }
    err.println("See '" + command.getCommandSpec().qualifiedName() + " --help'.");
    return ExitCode.USAGE;
  }

  private static Set<String> known(CommandLine command) {
    Set<String> known = new HashSet<>(command.getSubcommands().keySet());
    known.addAll(command.getCommandSpec().optionsMap().keySet());
    return known;
  }
}
