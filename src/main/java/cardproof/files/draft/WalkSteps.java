package cardproof.files.draft;

import cardproof.card.Bus;
import java.util.ArrayList;
import java.util.List;

/** Steps that move the lines of a bus one at a time, and those that move the single lines. */
final class WalkSteps {
  private static final int MOST_COMBINED = 8;

  private final DraftCard card;
  private final StepWriter writer;

  WalkSteps(DraftCard card, StepWriter writer) {
    this.card = card;
    this.writer = writer;
  }

  List<DraftStep> all() {
    List<DraftStep> steps = new ArrayList<>();
    card.wide().forEach(bus -> steps.add(walk(bus)));
    if (!card.singleInputs().isEmpty()) {
      steps.add(singleLines(card.singleInputs()));
    }
    return steps;
  }

  private DraftStep walk(Bus bus) {
    Standing standing = card.standing(List.of(bus), walking(card, bus));
    return writer.step(
        List.of(card.claim(bus.name(), standing.sight())),
        "one line of " + bus.name() + " at a time",
        List.of(bus),
        standing.levels(),
        StepWriter.each(bus.name(), "walking-ones"));
  }

  /** One line of a bus at 1 after the other; levels by bus index. */
  static List<long[]> walking(DraftCard card, Bus bus) {
    List<long[]> vectors = new ArrayList<>();
    for (int bit = 0; bit < bus.width(); bit++) {
      long[] vector = card.rest();
      vector[card.index(bus)] = 1L << bit;
      vectors.add(vector);
    }
    return vectors;
  }

  private DraftStep singleLines(List<Bus> single) {
    boolean few = single.size() <= MOST_COMBINED;
    String key = StepWriter.names(single);
    Standing standing = card.standing(single, few ? combined(single) : inTurn(single));
    return writer.step(
        List.of(
            card.claim(key, standing.sight()),
            few
                ? "Give the buses other words to see more of what these lines do."
                : "All combinations would be too many; write down those that matter."),
        few
            ? (single.size() == 1 ? key + " off and on" : "all combinations of " + key)
            : "one single line at a time",
        single,
        standing.levels(),
        StepWriter.each(key, few ? "all" : "walking-ones"));
  }

  private List<long[]> combined(List<Bus> single) {
    List<long[]> vectors = new ArrayList<>();
    for (int word = 0; word < 1 << single.size(); word++) {
      long[] vector = card.rest();
      for (int line = 0; line < single.size(); line++) {
        vector[card.index(single.get(line))] = word >> single.size() - 1 - line & 1;
      }
      vectors.add(vector);
    }
    return vectors;
  }

  private List<long[]> inTurn(List<Bus> single) {
    List<long[]> vectors = new ArrayList<>();
    for (Bus line : single) {
      long[] vector = card.rest();
      vector[card.index(line)] = 1;
      vectors.add(vector);
    }
    return vectors;
  }
}
