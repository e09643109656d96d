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
    if (wrong instanceof UnmatchedArgumentException unmatched) {
      err.println(notTaken(command, unmatched));
      unmatched.getUnmatched().stream()
          .findFirst()
          .flatMap(word -> Nearest.to(word, known(command)))
          .ifPresent(name -> err.println("Did you mean '" + name + "'?"));
    } else {
      err.println(wrong.getMessage() + ".");
    }
    err.println("See '" + command.getCommandSpec().qualifiedName() + " --help'.");
    return ExitCode.USAGE;
  }

  private static String notTaken(CommandLine command, UnmatchedArgumentException unmatched) {
    String words = "'" + String.join("', '", unmatched.getUnmatched()) + "'";
    String name = command.getCommandSpec().qualifiedName();
    return command.getSubcommands().isEmpty()
        ? words + " cannot be taken by '" + name + "': no such option, or one name too many."
        : words
            + " is no command of '"
            + name
            + "'; there are "
            + String.join(", ", command.getSubcommands().keySet())
            + ".";
  }

  private static Set<String> known(CommandLine command) {
    Set<String> known = new HashSet<>(command.getSubcommands().keySet());
    known.addAll(command.getCommandSpec().optionsMap().keySet());
    return known;
  }
}
