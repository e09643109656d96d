package cardproof.files.draft;

import cardproof.card.Behaviour;
import cardproof.card.Bus;
import cardproof.card.State;
import java.util.ArrayList;
import java.util.List;

/** Steps that suit any card: at rest, line by line, all together, load pulses, and words. */
final class PlanSteps {
  private final DraftCard card;
  private final StepWriter writer;

  PlanSteps(DraftCard card) {
    this.card = card;
    this.writer = new StepWriter(card);
  }

  List<DraftStep> all() {
    List<DraftStep> steps = new ArrayList<>();
    steps.add(atRest());
    steps.addAll(new WalkSteps(card, writer).all());
    List<State> states = card.card().behaviour().map(Behaviour::states).orElse(List.of());
    for (int i = 0; i < states.size(); i++) {
      steps.addAll(new LoadSteps(card, writer, states.get(i), i + 1).all());
    }
    steps.addAll(new WordSteps(card, writer).all());
    return steps;
  }

  private DraftStep atRest() {
    String watched =
        card.card().buses().stream()
            .filter(bus -> bus.role().watched())
            .findFirst()
            .map(Bus::name)
            .orElseThrow();
    return writer.step(
        List.of("To say what a fresh card shows, add a line such as expect: {" + watched + ": 0}."),
        "nothing driven",
        List.of(),
        card.rest(),
        "");
  }
}
