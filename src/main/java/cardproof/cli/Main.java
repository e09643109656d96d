package cardproof.cli;

import picocli.CommandLine;

/** The program's entry. */
public final class Main {
  private Main() {}

  public static void main(String[] args) {
    System.exit(run(args));
  }

  /** Runs a command line and returns its exit code; everything but the exit itself. */
  static int run(String... args) {
    DebugLog.place();
    return new CommandLine(new RootCommand())
        .setExecutionExceptionHandler(new Failures())
        .setParameterExceptionHandler(new UsageFailures())
        .setUsageHelpAutoWidth(true)
        .execute(args);
  }
}
