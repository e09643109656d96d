package cardproof.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** Writes new files; what there are is in the commands below it. */
@Command(
    name = "new",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description = "Writes a new card or plan, valid and with comments, to be changed by hand.",
    subcommands = {NewCardCommand.class, NewPlanCommand.class},
    footerHeading = "%nExample:%n",
    footer = {"  cardproof new card", "  cardproof new plan --card sum/card.yaml"})
final class NewCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    spec.commandLine().usage(spec.commandLine().getErr());
    return ExitCode.USAGE;
  }
}
