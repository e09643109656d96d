package cardproof.plan;

import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.card.Role;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.LongConsumer;

/**
 * Goes through every vector of a plan before any is driven.
 *
 * @param vectors how many there are
 * @param notJudgedBits watched bits without an expectation, over all vectors but those of sweeps
 * @param syncPoints the steps that establish what the card keeps
 * @param warnings things a user should know that do not stop a run
 * @param cost what a run takes of the card
 * @param gaps what no vector looks at, in the order of {@link GapKind}
 */
public record PlanCheck(
    long vectors,
    long notJudgedBits,
    SyncPoints syncPoints,
    List<Problem> warnings,
    PlanCost cost,
    List<Gap> gaps) {
  private static final long TELL_EVERY = 100_000;

  /**
   * @param progress is told now and then how many vectors were looked at
   * @throws RefusedException at the first vector that cannot be
   */
  public static PlanCheck of(Plan plan, LongConsumer progress) {
    return of(plan, progress, vector -> {});
  }

  /**
   * @param each is shown every vector, in order
   * @throws RefusedException at the first vector that cannot be
   */
  public static PlanCheck of(Plan plan, LongConsumer progress, Consumer<Vector> each) {
    Card card = plan.card();
    VectorSource source = plan.vectors();
    boolean[] warned = new boolean[card.buses().size()];
    List<Problem> warnings = new ArrayList<>();
    CardTime time = new CardTime(card);
    DriveWear wear = new DriveWear(card);
    LineCoverage lines = new LineCoverage(card);
    StateCoverage states = new StateCoverage(card);
    long count = 0;
    long notJudged = 0;
    while (source.hasNext()) {
      Vector vector = source.next();
      notJudged += vector.ofSweep() ? 0 : vector.notJudgedBits();
      each.accept(vector);
      time.take(vector);
      wear.take(vector);
      lines.take(vector);
      states.take(vector, source);
      for (int b = 0; b < warned.length; b++) {
        if (!warned[b] && drivenFromBothEnds(card, vector, b, source)) {
          warned[b] = true;
          warnings.add(bothEnds(vector, card.buses().get(b)));
        }
      }
      count++;
      if (count % TELL_EVERY == 0) {
        progress.accept(count);
      }
    }
    SyncPoints syncPoints = plan.syncPoints();
    warnings.addAll(syncPoints.warnings());
    PlanCost cost =
        new PlanCost(
            time.audits(),
            time.expectedUs(),
            time.atMostUs(),
            card.relays().silentChainUs(),
            wear.end(),
            time.longestHold());
    return new PlanCheck(
        count, notJudged, syncPoints, List.copyOf(warnings), cost, gaps(lines, states));
  }

  private static List<Gap> gaps(LineCoverage lines, StateCoverage states) {
    List<Gap> gaps = new ArrayList<>();
    lines.addGaps(gaps);
    states.addGaps(gaps);
    gaps.sort(Comparator.comparing(Gap::kind));
    return List.copyOf(gaps);
  }

  private static boolean drivenFromBothEnds(Card card, Vector vector, int b, VectorSource source) {
    return card.buses().get(b).role() == Role.SHARED
        && vector.level()[b] != 0
        && source.cardDrives(b) != 0;
  }

  private static Problem bothEnds(Vector vector, Bus bus) {
    return Problem.at(
        vector.step().at(),
        "card and fixture both drive bus " + bus.name() + " in vector " + vector.origin(),
        "",
        "What comes back is taken as the OR of both; release "
            + bus.name()
            + " if that is not meant");
  }
}
