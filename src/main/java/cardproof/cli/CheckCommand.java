package cardproof.cli;

import cardproof.bits.WordText;
import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.card.RelayFigures;
import cardproof.files.Loaded;
import cardproof.files.PlanFile;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.HookUp;
import cardproof.plan.PatternStep;
import cardproof.plan.Plan;
import cardproof.plan.PlanCheck;
import cardproof.plan.StepNumbers;
import cardproof.plan.Vector;
import cardproof.plan.VectorSource;
import cardproof.text.Micros;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Reads a plan and everything it names, and says what a run would do; drives nothing. */
@Command(
    name = "check",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description = "Checks a plan and its card without any hardware, and prints the hook-up table.",
    footerHeading = "%nExample:%n",
    footer = "  cardproof check vectors/sum/bring-up.yaml --list")
final class CheckCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "PLAN", description = "plan file")
  private Path planFile;

  @Mixin private FixtureOptions fixture;

  @Mixin private StepOptions steps;

  @Option(names = "--list", description = "list every vector instead of the hook-up table")
  private boolean list;

  @Override
  public Integer call() {
    Screen screen = Screen.of(spec.commandLine());
    PrintWriter out = screen.out();
    Loaded<Plan> loaded = PlanFile.read(planFile);
    Plan plan = steps.of(loaded.value());
    Loaded<FixtureProfile> profile = fixture.profile(plan.card());
    HookUp hookUp = HookUp.of(plan.card(), profile.value());
    loaded.warnings().forEach(warning -> screen.err().println("warning: " + warning));
    profile.warnings().forEach(warning -> screen.err().println("warning: " + warning));
    PlanCheck check = PlanChecking.check(plan, screen);
    check.warnings().forEach(warning -> screen.err().println("warning: " + warning));
    if (list) {
      list(plan, out);
    } else {
      overview(plan, check, out);
      hookUp(hookUp, out);
    }
    out.flush();
    return ExitCode.PASSED;
  }

  private static void overview(Plan plan, PlanCheck check, PrintWriter out) {
    Card card = plan.card();
    RelayFigures relays = card.relays();
    out.println(plan.title());
    out.println("card " + card.name() + ": " + card.title());
    out.printf(
        "  %d lines driven, %d watched, %s%n",
        HookUp.drivesNeeded(card),
        HookUp.watchesNeeded(card),
        card.hasState() ? "holds state" : "no state");
    out.printf(
        "  settle limit %s, quiet window %s (floor %s: 1.25 x %d x (%s + %s))%n",
        Micros.text(card.limits().settleUs()),
        Micros.text(card.limits().quietUs()),
        Micros.text(relays.quietFloorUs()),
        relays.unseenStages(),
        Micros.text(Math.max(relays.operateUs(), relays.releaseUs())),
        Micros.text(relays.bounceUs()));
    out.printf(
        "  %d vectors, %d watched bits not judged%n", check.vectors(), check.notJudgedBits());
    if (card.hasState()) {
      Set<PatternStep> steps = StepNumbers.of(plan.steps()).keySet();
      out.printf(
          "  %d of %d steps establish what the card keeps%n",
          steps.stream().filter(check.syncPoints()::establishes).count(), steps.size());
    }
    out.println();
  }

  private static void hookUp(HookUp hookUp, PrintWriter out) {
    out.println("hook-up");
    out.printf("  %-8s %-8s %-10s %-12s %s%n", "drive", "watch", "pin", "line", "label");
    for (Line line : hookUp.card().lines()) {
      out.printf(
          "  %-8s %-8s %-10s %-12s %s%n",
          channel("D", hookUp.driveOf(line)),
          channel("W", hookUp.watchOf(line)),
          line.pin(),
          line.name(),
          line.label().equals(line.name()) ? "" : line.label());
    }
  }

  private static String channel(String letter, int number) {
    return number == HookUp.NOTHING ? "-" : letter + number;
  }

  private static void list(Plan plan, PrintWriter out) {
    VectorSource source = plan.vectors();
    while (source.hasNext()) {
      Vector vector = source.next();
      out.printf(
          "%d  %s  %s  ->  %s  %s%n",
          vector.number() + 1,
          vector.origin(),
          vector.describe(),
          expected(vector),
          vector.step().title());
    }
  }

  private static String expected(Vector vector) {
    List<String> parts = new ArrayList<>();
    for (int b = 0; b < vector.care().length; b++) {
      Bus bus = vector.card().buses().get(b);
      if (bus.role().watched()) {
        long unknown = bus.mask() & ~vector.care()[b];
        parts.add(bus.name() + "=" + WordText.of(vector.expect()[b], unknown, bus.width()));
      }
    }
    return String.join(" ", parts);
  }
}
