package cardproof.cli;

import cardproof.card.Card;
import cardproof.card.wiring.review.Review;
import cardproof.fixture.HookUp;
import cardproof.plan.Gap;
import cardproof.plan.LineChanges;
import cardproof.plan.LongestHold;
import cardproof.plan.PatternStep;
import cardproof.plan.Plan;
import cardproof.plan.PlanCheck;
import cardproof.plan.PlanCost;
import cardproof.plan.StepNumbers;
import cardproof.plan.Sweep;
import cardproof.plan.SyncPoints;
import cardproof.text.Micros;
import java.io.PrintWriter;
import java.util.Optional;
import java.util.Set;

/** What was found out about a plan, in words: what it is, what it costs, what it leaves untried. */
final class CheckReport {
  private final Plan plan;
  private final Card card;
  private final PlanCheck check;
  private final Optional<Review> review;
  private final Screen screen;
  private final PrintWriter out;

  CheckReport(Plan plan, PlanCheck check, Optional<Review> review, Screen screen) {
    this.plan = plan;
    this.card = plan.card();
    this.check = check;
    this.review = review;
    this.screen = screen;
    this.out = screen.out();
  }

  void print() {
    overview();
    review.ifPresent(new ReviewReport(card, screen)::brief);
    review.ifPresent(new ReviewReport(card, screen)::firstPower);
    cost(check.cost());
    gaps();
  }

  private void overview() {
    out.println(screen.strong(plan.title()));
    out.println("card " + card.name() + ": " + card.title());
    out.println(
        "  "
            + HookUp.drivesNeeded(card)
            + " lines driven, "
            + HookUp.watchesNeeded(card)
            + " watched, "
            + (card.hasState() ? "holds state" : "no state"));
    out.println(
        "  settle limit "
            + Micros.text(card.limits().settleUs())
            + ", quiet window "
            + Micros.text(card.limits().quietUs())
            + " (floor "
            + ReviewReport.floor(card.relays())
            + ")");
    out.println(
        "  " + check.vectors() + " vectors, " + check.notJudgedBits() + " watched bits not judged");
    if (card.hasState()) {
      SyncPoints points = check.syncPoints();
      Set<PatternStep> steps = StepNumbers.of(plan.steps()).keySet();
      out.println(
          "  "
              + steps.stream().filter(points::establishes).count()
              + " of "
              + steps.size()
              + " steps establish what the card keeps");
    }
    out.println();
  }

  private void cost(PlanCost cost) {
    out.println("cost");
    out.println(
        "  about "
            + LongTime.text(cost.expectedUs())
            + " of card time, at most "
            + LongTime.text(cost.atMostUs()));
    for (String part : estimate(cost).split("; ")) {
      out.println("    " + part);
    }
    plan.sweeps().forEach(this::sweep);
    cost.busiest().ifPresent(busiest -> wear(cost, busiest));
    cost.longestHold().ifPresent(this::hold);
    out.println();
  }

  private void sweep(PatternStep step) {
    Sweep sweep = step.sweep().orElseThrow();
    out.printf(
        "  %s: %d trials, %d vectors each with those that prepare it (%s)%n",
        sweep.words(card),
        sweep.trials(),
        Sweep.VECTORS,
        step.at().fileAndLine() + step.marks().calls());
  }

  /** How the expected time is made. */
  static String estimate(PlanCost cost) {
    return "an estimate: a vector ends one quiet window after its last change; where the card moves"
        + " a line that is taken to be one silent chain of relays, "
        + Micros.text(cost.silentChainUs())
        + ", after the drive; "
        + cost.audits()
        + " audits (the first vector of each step, and every twentieth) are watched to their end";
  }

  private void wear(PlanCost cost, LineChanges busiest) {
    out.println(
        "  drives change "
            + cost.driveChanges()
            + " times, most of all "
            + busiest.line().bus().describe(busiest.line().bit())
            + ": "
            + busiest.changes()
            + " times, "
            + busiest.changes() / 2
            + " operations of a relay behind it");
  }

  private void hold(LongestHold hold) {
    long first = hold.firstVector() + 1;
    String which =
        hold.vectors() == 1
            ? "vector " + first
            : "vectors " + first + " to " + (hold.firstVector() + hold.vectors());
    out.println(
        "  the longest that one pattern is held: about "
            + LongTime.text(hold.expectedUs())
            + ", at most "
            + LongTime.text(hold.atMostUs())
            + " ("
            + which
            + ", from "
            + hold.at()
            + ")");
    if (hold.atMostUs() > card.limits().holdMs() * 1_000) {
      out.println(
          "    longer than the card's hold limit of "
              + Micros.text(card.limits().holdMs() * 1_000)
              + ", which a fixture keeps for each vector by itself");
    }
  }

  private void gaps() {
    GapWords words = new GapWords(plan, check.vectors());
    if (check.gaps().isEmpty()) {
      out.println("Every line goes to both levels, and every watched one is always judged.");
    } else {
      out.println("left untried");
      for (Gap gap : check.gaps()) {
        out.println("  " + words.sentence(gap));
      }
    }
    out.println();
  }
}
