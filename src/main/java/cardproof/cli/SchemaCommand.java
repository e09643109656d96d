package cardproof.cli;

import cardproof.files.FileSchema;
import cardproof.text.Nearest;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Prints the JSON Schema of a kind of file, or the kinds there are. */
@Command(
    name = "schema",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description = {
      "Prints the JSON Schema (draft 2020-12) of a kind of file, by which editors complete keys and"
          + " show what they mean.",
      "Without a kind it lists the kinds."
    },
    footerHeading = "%nExample:%n",
    footer = "  cardproof schema plan > plan.schema.json")
final class SchemaCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(
      paramLabel = "KIND",
      arity = "0..1",
      completionCandidates = SchemaKinds.class,
      description = "card, pair, plan, procedures, fixture or relays")
  private Optional<String> kind = Optional.empty();

  @Override
  public Integer call() {
    Screen screen = Screen.of(spec.commandLine());
    if (kind.isEmpty()) {
      FileSchema.kinds().forEach(screen.out()::println);
    } else {
      screen.out().println(FileSchema.of(kind.get()).orElseThrow(this::unknown).text());
    }
    screen.out().flush();
    return ExitCode.PASSED;
  }

  private RefusedException unknown() {
    return new RefusedException(
        new Problem(
            "schema",
            "there is no kind of file '" + kind.orElseThrow() + "'",
            "one of " + String.join(", ", FileSchema.kinds()),
            Nearest.to(kind.orElseThrow(), FileSchema.kinds())
                .map(near -> "Did you mean '" + near + "'?")
                .orElse("")));
  }
}
