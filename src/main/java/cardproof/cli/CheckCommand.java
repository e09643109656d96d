package cardproof.cli;

import cardproof.card.Card;
import cardproof.files.Loaded;
import cardproof.files.PlanFile;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.HookUp;
import cardproof.plan.Plan;
import cardproof.plan.PlanCheck;
import cardproof.text.Problem;
import java.io.Writer;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/**
 * Reads a plan and everything it names, and says what a run would do, what it would cost and what
 * it would not notice; drives nothing.
 */
@Command(
    name = "check",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description =
        "Checks a plan and its card without any hardware: what it costs, what it leaves untried, and"
            + " which channel goes to which pin.",
    footerHeading = "%nExample:%n",
    footer = {
      "  cardproof check vectors/sum/bring-up.yaml",
      "  cardproof check vectors/sum/bring-up.yaml --list --csv"
    })
final class CheckCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "PLAN", description = "plan file")
  private Path planFile;

  @Mixin private FixtureOptions fixture;

  @Option(names = "--list", description = "list every vector instead")
  private boolean list;

  @Option(names = "--csv", description = "with --list: as a comma-separated table")
  private boolean csv;

  @Option(
      names = "--json",
      description = "one JSON object on standard output; with --list an array of the vectors")
  private boolean json;

  @Override
  public Integer call() {
    checkOptions();
    Screen screen = Screen.of(spec.commandLine());
    Loaded<Plan> loaded = PlanFile.read(planFile);
    Plan plan = loaded.value();
    Loaded<FixtureProfile> profile = fixture.profile(plan.card());
    HookUp hookUp = HookUp.of(plan.card(), profile.value());
    List<Problem> warnings = new ArrayList<>(loaded.warnings());
    warnings.addAll(profile.warnings());
    PlanCheck check = PlanChecking.check(plan, screen);
    warnings.addAll(check.warnings());
    warnings.forEach(warning -> screen.err().println("warning: " + warning));
    if (list) {
      VectorListing.write(plan, screen.out(), this::format);
    } else if (json) {
      screen.out().println(CheckJson.of(plan, check, hookUp, warnings));
    } else {
      new CheckReport(plan, check, screen).print();
      HookUpTable.print(hookUp, screen.out());
    }
    screen.out().flush();
    return ExitCode.PASSED;
  }

  private void checkOptions() {
    if (csv && !list) {
      throw new ParameterException(
          spec.commandLine(), "--csv writes the vectors and goes with --list");
    }
    if (csv && json) {
      throw new ParameterException(spec.commandLine(), "--csv and --json: one of them at a time");
    }
  }

  private VectorFormat format(Card card, Writer out) {
    if (csv) {
      return new VectorCsv(card, out);
    }
    return json ? new VectorJson(card, out) : new VectorText(out);
  }
}
