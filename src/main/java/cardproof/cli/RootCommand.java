package cardproof.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** The program without a command: its help. */
@Command(
    name = "cardproof",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description = "Proves hand-built logic cards on the bench.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:all passed",
      "1:some vector did not pass",
      "2:wrong usage or files",
      "3:fixture or link",
      "4:stopped by the operator",
      "5:the card or supply tripped",
      "70:a defect of the program itself"
    })
final class RootCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    spec.commandLine().usage(spec.commandLine().getErr());
    return ExitCode.USAGE;
  }
}
