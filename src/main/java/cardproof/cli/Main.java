package cardproof.cli;

import picocli.CommandLine;
import picocli.CommandLine.TypeConversionException;

/** The program's entry. */
public final class Main {
  private Main() {}

  public static void main(String[] args) {
    if (args.length == 1 && args[0].equals("--version")) {
      // Scripts ask for this often: answered without reading the command line's definition.
      System.out.println(Version.text());
      return;
    }
    System.exit(run(args));
  }

  /** Runs a command line and returns its exit code; everything but the exit itself. */
  private static int run(String... args) {
    DebugLog.place();
    CommandLine command = commandLine(args);
    if (MachineOutput.isAskedFor(args)) {
      command.setOut(MachineOutput.open());
    }
    int exitCode = execute(command, args);
    command.getOut().flush();
    return exitCode;
  }

  /** Out of memory, say: told like any defect, which the command line's own handling is not. */
  private static int execute(CommandLine command, String... args) {
    try {
      return command.execute(args);
    } catch (Error broken) {
      return Failures.defect(command.getErr(), broken);
    }
  }

  static CommandLine commandLine(String... args) {
    return Commands.commandLine(args)
        .setExecutionExceptionHandler(new Failures())
        .setParameterExceptionHandler(new UsageFailures())
        .registerConverter(Long.class, Main::wholeNumber)
        .registerConverter(long.class, Main::wholeNumber)
        .setUsageHelpAutoWidth(true);
  }

  private static long wholeNumber(String text) {
    try {
      return Long.decode(text);
    } catch (NumberFormatException wrong) {
      throw new TypeConversionException("'" + text + "' is not a whole number");
    }
  }
}
