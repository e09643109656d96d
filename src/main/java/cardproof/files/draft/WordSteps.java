package cardproof.files.draft;

import cardproof.card.Bus;
import java.util.ArrayList;
import java.util.List;

/**
 * Every word where there are few, or random ones, of lines joined as far as one word reaches, so
 * that there are as many vectors as are asked for. What states read is left out: a word that
 * changes while its load line falls is a race on a real card.
 */
final class WordSteps {
  private static final int WIDEST = 64;

  /** Lines all words of which are few enough. */
  private static final int FEW_LINES = 8;

  /** The same beside a state, of which they show only what it happens to hold. */
  private static final int FEWER_LINES = 6;

  private final DraftCard card;
  private final StepWriter writer;

  WordSteps(DraftCard card, StepWriter writer) {
    this.card = card;
    this.writer = writer;
  }

  List<DraftStep> all() {
    List<Bus> left = new ArrayList<>(card.inputs().isEmpty() ? card.shared() : card.inputs());
    left.removeIf(card::isReadByStates);
    boolean state = card.card().hasState();
    int width = left.stream().mapToInt(Bus::width).sum();
    boolean few = width <= (state ? FEWER_LINES : FEW_LINES);
    if (few
        && !state
        && !card.inputs().isEmpty()
        && left.stream().allMatch(bus -> bus.width() == 1)) {
      return List.of(); // the single lines have gone through all of them
    }
    return joined(left).stream().map(together -> words(together, few)).toList();
  }

  /** Buses in order, as many together as fit one word. */
  static List<List<Bus>> joined(List<Bus> buses) {
    List<List<Bus>> all = new ArrayList<>();
    int width = WIDEST;
    for (Bus bus : buses) {
      if (width + bus.width() > WIDEST) {
        all.add(new ArrayList<>());
        width = 0;
      }
      all.get(all.size() - 1).add(bus);
      width += bus.width();
    }
    return all;
  }

  private DraftStep words(List<Bus> together, boolean few) {
    String names = StepWriter.names(together);
    return writer.step(
        List.of(
            few
                ? "Whatever these lines can do is tried here."
                : "The seed gives the same words each time; another seed gives others."),
        (few ? "every word on " : "random words on ") + names,
        together,
        card.rest(),
        StepWriter.each(names, few ? "all" : "{random: 100, seed: 1}"));
  }
}
