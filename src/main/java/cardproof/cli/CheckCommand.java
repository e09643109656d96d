package cardproof.cli;

import cardproof.card.Card;
import cardproof.card.CardReview;
import cardproof.card.wiring.Wiring;
import cardproof.card.wiring.review.Review;
import cardproof.files.CardFile;
import cardproof.files.Loaded;
import cardproof.files.PlanFile;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.HookUp;
import cardproof.plan.Plan;
import cardproof.plan.PlanCheck;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.io.Writer;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
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
 * it would not notice; or reads a card and looks its wiring over. Drives nothing.
 */
@Command(
    name = "check",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description =
        "Checks a plan and its card without any hardware: what it costs, what it leaves untried, and"
            + " which channel goes to which pin. Given a card, looks over its wiring: mistakes,"
            + " chains of relays, currents.",
    footerHeading = "%nExample:%n",
    footer = {
      "  cardproof check vectors/sum/bring-up.yaml",
      "  cardproof check vectors/sum/bring-up.yaml --list --csv",
      "  cardproof check vectors/sum/card.yaml",
      "  cardproof check vectors/sum/card.yaml --sheet"
    })
final class CheckCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "PLAN", description = "plan file, or card file")
  private Path file;

  @Mixin private FixtureOptions fixture;

  @Mixin private StepOptions steps;

  @Option(names = "--list", description = "list every vector instead")
  private boolean list;

  @Option(
      names = "--sheet",
      description =
          "of a card with wiring: what a meter should show at every pin before first power")
  private boolean sheet;

  @Option(names = "--csv", description = "with --list or --sheet: as a comma-separated table")
  private boolean csv;

  @Option(
      names = "--json",
      description = "one JSON object on standard output; with --list an array of the vectors")
  private boolean json;

  @Override
  public Integer call() {
    checkOptions();
    Screen screen = Screen.of(spec.commandLine());
    int exitCode = CardFile.looksLikeOne(file) ? checkCard(screen) : checkPlan(screen);
    screen.out().flush();
    return exitCode;
  }

  private int checkPlan(Screen screen) {
    if (sheet) {
      throw new ParameterException(
          spec.commandLine(), "--sheet goes with a card, and " + file + " is a plan");
    }
    Loaded<Plan> loaded = PlanFile.read(file);
    Plan plan = steps.of(loaded.value());
    Loaded<FixtureProfile> profile = fixture.profile(plan.card());
    HookUp hookUp = HookUp.of(plan.card(), profile.value());
    List<Problem> warnings = new ArrayList<>(loaded.warnings());
    warnings.addAll(profile.warnings());
    warnings.addAll(PlanChecking.fit(plan.card(), profile.value()));
    Optional<Review> review = CardReview.of(plan.card(), profile.value().driveMilliamps());
    PlanCheck check = PlanChecking.check(plan, hookUp, review, screen);
    warnings.addAll(check.warnings());
    warn(warnings, screen);
    if (list) {
      VectorListing.write(plan, screen.out(), this::format);
    } else if (json) {
      screen.out().println(CheckJson.of(plan, check, review, hookUp, warnings));
    } else {
      new CheckReport(plan, check, review, screen).print();
      HookUpTable.print(hookUp, screen.out());
    }
    return exitCode(review);
  }

  private int checkCard(Screen screen) {
    if (list || steps.partial()) {
      throw new ParameterException(
          spec.commandLine(),
          "--list, --only and --skip go with a plan, and " + file + " is a card");
    }
    Loaded<Card> loaded = CardFile.read(file);
    Card card = loaded.value();
    if (sheet) {
      return sheet(card, screen);
    }
    Loaded<FixtureProfile> profile = fixture.profile(card);
    List<Problem> warnings = new ArrayList<>(loaded.warnings());
    warnings.addAll(profile.warnings());
    warnings.addAll(PlanChecking.fit(card, profile.value()));
    Optional<Review> review = CardReview.of(card, profile.value().driveMilliamps());
    warn(warnings, screen);
    if (json) {
      screen.out().println(ReviewJson.of(card, review, warnings));
    } else {
      ReviewReport report = new ReviewReport(card, screen);
      report.overview();
      review.ifPresentOrElse(
          report::print,
          () -> screen.out().println("Its wiring is not known: the card has no 'wiring'."));
    }
    return exitCode(review);
  }

  private int sheet(Card card, Screen screen) {
    Wiring wiring =
        card.wiring()
            .orElseThrow(
                () ->
                    new RefusedException(
                        Problem.at(
                            card.at(),
                            "card " + card.name() + " has no 'wiring' to expect readings from",
                            "a card with its wiring",
                            "Describe what is soldered under 'wiring'")));
    if (csv) {
      MeterSheet.csv(card, wiring, screen.out());
    } else {
      MeterSheet.print(card, wiring, screen.out());
    }
    return ExitCode.PASSED;
  }

  private static void warn(List<Problem> warnings, Screen screen) {
    warnings.forEach(warning -> screen.err().println("warning: " + warning));
  }

  /** A card that would burn or cannot work is as wrong as a file that cannot be read. */
  private static int exitCode(Optional<Review> review) {
    return review.filter(Review::hasErrors).isPresent() ? ExitCode.USAGE : ExitCode.PASSED;
  }

  private void checkOptions() {
    if (csv && !list && !sheet) {
      throw new ParameterException(
          spec.commandLine(), "--csv writes a table and goes with --list or --sheet");
    }
    if (sheet && (json || list)) {
      throw new ParameterException(
          spec.commandLine(), "--sheet and --json or --list: one of them at a time");
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
