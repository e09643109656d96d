package cardproof.files.draft;

import cardproof.card.Bus;
import cardproof.plan.Plan;
import cardproof.plan.sight.FaultSearch;
import cardproof.plan.sight.LineFault;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/**
 * Steps for many lines that one output hangs on at once, such as a wide AND or OR, of which random
 * words show next to nothing: all of them at 1 and then all but one, all at 0 and then one alone.
 * Only those that show on that output what no step before them shows there.
 */
final class WideSteps {
  /** Of so many lines every word is tried, or nearly. */
  private static final int FEW_LINES = 8;

  private final DraftCard card;
  private final StepWriter writer;
  private final Plan before;
  private final List<long[]> added = new ArrayList<>();
  private final List<DraftStep> steps = new ArrayList<>();

  /**
   * @param before all steps before these
   */
  WideSteps(DraftCard card, StepWriter writer, Plan before) {
    this.card = card;
    this.writer = writer;
    this.before = before;
  }

  /** Those of all outputs. */
  List<DraftStep> all() {
    for (Bus output : card.card().buses()) {
      List<Bus> group = group(output);
      boolean wide = group.stream().mapToInt(Bus::width).sum() > FEW_LINES;
      if (wide && group.stream().noneMatch(card::isReadByStates)) {
        of(output, group);
      }
    }
    return steps;
  }

  /** Levels by bus index that {@link #all} drives, in order. */
  List<long[]> patterns() {
    return added;
  }

  /** The inputs that an output hangs on. */
  private List<Bus> group(Bus output) {
    BitSet read = card.hangsOn(card.card().behaviour().orElseThrow().reads(card.index(output)));
    return card.inputs().stream().filter(bus -> read.get(card.index(bus))).toList();
  }

  private void of(Bus output, List<Bus> group) {
    List<LineFault> stuck =
        LineFault.of(card.card()).stream()
            .filter(f -> f instanceof LineFault.Stuck && group.contains(f.line().bus()))
            .toList();
    FaultSearch search = FaultSearch.at(card.card(), card.index(output), stuck);
    search.takeRest(before);
    added.forEach(search::take);
    for (List<Bus> together : WordSteps.joined(group)) {
      walk(output, group, together, true, search);
      walk(output, group, together, false, search);
    }
  }

  /**
   * @param group all that the output hangs on
   * @param moved those of it that are walked along; the others stand like them
   * @param on all lines at 1 and one at 0, or the other way round
   */
  private void walk(Bus output, List<Bus> group, List<Bus> moved, boolean on, FaultSearch search) {
    long[] alike = card.rest();
    group.forEach(bus -> alike[card.index(bus)] = on ? bus.mask() : 0);
    long[] standing = card.standing(group, oneOff(alike, moved)).levels().clone();
    group.forEach(bus -> standing[card.index(bus)] = alike[card.index(bus)]);
    int enough = moved.stream().mapToInt(Bus::width).sum() / 2;
    String names = StepWriter.names(moved);
    String level = on ? " on" : " off";
    add(
        output,
        "every line of " + StepWriter.names(group) + level,
        List.of(),
        standing,
        "",
        List.of(standing),
        search,
        enough);
    add(
        output,
        "every line of " + names + level + " but one",
        moved,
        standing,
        StepWriter.each(names, on ? "walking-zeros" : "walking-ones"),
        oneOff(standing, moved),
        search,
        enough);
  }

  private List<long[]> oneOff(long[] base, List<Bus> moved) {
    List<long[]> words = new ArrayList<>();
    for (Bus bus : moved) {
      for (int bit = 0; bit < bus.width(); bit++) {
        long[] word = base.clone();
        word[card.index(bus)] ^= 1L << bit;
        words.add(word);
      }
    }
    return words;
  }

  private void add(
      Bus output,
      String title,
      List<Bus> moved,
      long[] standing,
      String rest,
      List<long[]> patterns,
      FaultSearch search,
      int enough) {
    BitSet found = search.wouldFind(patterns);
    if (found.cardinality() >= Math.max(1, enough)) {
      String claim = FaultWords.claim(output, search.left(), found);
      patterns.forEach(search::take);
      added.addAll(patterns);
      steps.add(writer.step(List.of(claim), title, moved, standing, rest));
    }
  }
}
