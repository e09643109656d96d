package cardproof.files.draft;

import cardproof.card.Bus;
import cardproof.card.State;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/**
 * Steps that pulse one line again and again, for a card that goes on from one state to the next: a
 * counter or a sequencer reaches some of them in no other way.
 */
final class CountSteps {
  /** Times round; a counter of five bits and more is not brought to its end. */
  private static final int MOST_TIMES = 17;

  private final DraftCard card;
  private final StepWriter writer;

  CountSteps(DraftCard card, StepWriter writer) {
    this.card = card;
    this.writer = writer;
  }

  /** One for each line that a state reads, with the others at rest, one of them on, or all. */
  List<DraftStep> candidates() {
    List<Bus> controls = card.singleInputs().stream().filter(card::isReadByStates).toList();
    List<DraftStep> candidates = new ArrayList<>();
    for (Bus pulsed : controls) {
      List<Bus> others = controls.stream().filter(bus -> bus != pulsed).toList();
      candidates.add(pulsed(pulsed, List.of()));
      others.forEach(other -> candidates.add(pulsed(pulsed, List.of(other))));
      if (others.size() > 1) {
        candidates.add(pulsed(pulsed, others));
      }
    }
    return candidates;
  }

  private DraftStep pulsed(Bus line, List<Bus> on) {
    long[] standing = card.rest();
    on.forEach(bus -> standing[card.index(bus)] = 1);
    String text =
        writer
            .step(
                List.of(),
                "pulse " + line.name(),
                List.of(),
                standing,
                StepWriter.pulse(line.name()))
            .text();
    return new DraftStep(
        List.of("Goes on from state to state, to where no step above comes."),
        "  - title: "
            + line.name()
            + " again and again\n    repeat: "
            + times()
            + "\n    steps:\n"
            + text.lines().map(row -> "    " + row + "\n").collect(Collectors.joining()));
  }

  /** Once round, and one more, as far as that is worth while. */
  private int times() {
    int bits =
        card.card().behaviour().orElseThrow().states().stream()
            .mapToInt(State::width)
            .max()
            .orElse(0);
    return bits < 5 ? Math.min(MOST_TIMES, (1 << bits) + 1) : MOST_TIMES;
  }
}
