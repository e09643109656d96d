package cardproof.files;

import cardproof.text.Position;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * The kinds of references by patterns. Of several that fit the one with most signs of its own
 * holds, and of those the first.
 */
final class Kinds {
  /**
   * One pattern.
   *
   * @param kind empty for a connector, and for one that could not be read
   */
  private record Entry(ReferencePattern pattern, Position at, Optional<NetKind> kind) {}

  private final List<Entry> entries = new ArrayList<>();
  private final Set<Entry> used = new HashSet<>();

  /**
   * @param kind empty where it could not be read, or for a connector
   */
  void add(Node.Text pattern, Optional<NetKind> kind) {
    entries.add(new Entry(ReferencePattern.of(pattern.text().strip()), pattern.at(), kind));
  }

  List<String> patterns() {
    return entries.stream().map(entry -> entry.pattern().written()).toList();
  }

  /** Whether any pattern fits. */
  boolean fit(String reference) {
    return best(reference).isPresent();
  }

  /** What a reference is; empty where no pattern fits, or where that one has no kind. */
  Optional<NetKind> of(String reference) {
    return best(reference).flatMap(Entry::kind);
  }

  private Optional<Entry> best(String reference) {
    Entry best = null;
    for (Entry entry : entries) {
      boolean better = best == null || entry.pattern().own() > best.pattern().own();
      if (better && entry.pattern().fits(reference)) {
        best = entry;
      }
    }
    if (best != null) {
      used.add(best);
    }
    return Optional.ofNullable(best);
  }

  /** To be called when all references were asked for. */
  void warnOfUnused(Problems problems) {
    entries.stream()
        .filter(entry -> !used.contains(entry))
        .forEach(
            entry ->
                problems.warn(
                    entry.at(),
                    "no reference of the netlist takes its kind from '"
                        + entry.pattern().written()
                        + "'",
                    "",
                    "Take it out, or look for a slip in it"));
  }
}
