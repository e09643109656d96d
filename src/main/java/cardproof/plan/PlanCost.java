package cardproof.plan;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * What running a plan takes of a card.
 *
 * @param audits vectors watched to their end whatever they do
 * @param expectedUs card time, an estimate: a vector ends a quiet window after its last change,
 *     which is taken to come {@code silentChainUs} after the drive where the card moves a line, and
 *     at once where it moves none; audits run to the end of watching
 * @param atMostUs card time with every vector watched to its end
 * @param silentChainUs the longest chain of relays that moves unseen
 * @param drives every line that a fixture drives, in the card's order
 * @param longestHold empty where nothing is ever driven
 */
public record PlanCost(
    long audits,
    long expectedUs,
    long atMostUs,
    long silentChainUs,
    List<LineChanges> drives,
    Optional<LongestHold> longestHold) {
  public PlanCost {
    drives = List.copyOf(drives);
  }

  /** Of all lines that are driven. */
  public long driveChanges() {
    return drives.stream().mapToLong(LineChanges::changes).sum();
  }

  /** The line that is switched most, the first where several are; empty where none is. */
  public Optional<LineChanges> busiest() {
    return drives.stream()
        .filter(line -> line.changes() > 0)
        .sorted(Comparator.comparingLong(LineChanges::changes).reversed())
        .findFirst();
  }
}
