package cardproof.plan;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * Picks the time to try next, for all lines at once. First the whole range in coarse steps, so that
 * one that works by turns is found out; then, for as long as the edge of any line lies between two
 * times further apart than the resolution, the middle that the most lines want; then the shortest
 * time at which a line works, again and again, that of the line with the fewest such trials first:
 * relays scatter. A line that fails there has its edge above, and is searched anew. Not thread
 * safe.
 */
final class SweepSearch {
  private final List<Integer> coarse;
  private final int count;
  private final Map<Integer, SweepSeries> all = new TreeMap<>();
  private int picked;

  SweepSearch(Sweep sweep) {
    coarse = sweep.coarse();
    count = sweep.range().count();
  }

  /** By key; a key that was not there before is a line that nothing is known of yet. */
  SweepSeries series(int key) {
    return all.computeIfAbsent(key, fresh -> new SweepSeries(count));
  }

  Map<Integer, SweepSeries> all() {
    return all;
  }

  int next() {
    int pick = picked++;
    if (pick < coarse.size()) {
      return coarse.get(pick);
    }
    return middle().or(this::again).orElseGet(() -> coarse.get(pick % coarse.size()));
  }

  private Optional<Integer> middle() {
    return all.values().stream()
        .filter(SweepSeries::isOpen)
        .max(
            Comparator.comparingLong((SweepSeries one) -> wanting(one.middle()))
                .thenComparingInt(SweepSeries::gap))
        .map(SweepSeries::middle);
  }

  private long wanting(int index) {
    return all.values().stream().filter(one -> one.wants(index)).count();
  }

  /** Where a line works everywhere or nowhere there is no edge to be tried again. */
  private Optional<Integer> again() {
    return all.values().stream()
        .filter(one -> one.longestFailed().isPresent() && one.shortestWorked().isPresent())
        .min(Comparator.comparingInt(one -> one.workedAt(one.shortestWorked().getAsInt())))
        .map(one -> one.shortestWorked().getAsInt());
  }
}
