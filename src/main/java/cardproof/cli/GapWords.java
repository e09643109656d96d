package cardproof.cli;

import cardproof.bits.BitRange;
import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.plan.Gap;
import cardproof.plan.Plan;
import java.util.ArrayList;
import java.util.List;

/** Says a {@link Gap} so that a builder knows what to add to the plan. */
final class GapWords {
  private final Card card;
  private final long vectors;
  private final String outside;

  /**
   * @param vectors of the whole plan
   */
  GapWords(Plan plan, long vectors) {
    this.card = plan.card();
    this.vectors = vectors - plan.sweepVectors();
    this.outside = plan.sweeps().isEmpty() ? "" : " outside sweeps";
  }

  String sentence(Gap gap) {
    return lines(gap) + " " + what(gap);
  }

  private String what(Gap gap) {
    boolean one = Long.bitCount(gap.bits()) == 1;
    String is = one ? "is" : "are";
    String goes = one ? "goes" : "go";
    String it = one ? "it" : "them";
    return switch (gap.kind()) {
      case NEVER_JUDGED -> is + " never judged: " + whyNever(gap) + ", or expect it in a step";
      case NEVER_EXPECTED_1 ->
          "never " + goes + " to 1: no vector would notice " + it + " stuck at ground";
      case NEVER_EXPECTED_0 ->
          "never " + goes + " to 0: no vector would notice " + it + " stuck at supply";
      case ONLY_FIXTURE_DRIVES_1 ->
          goes
              + " to 1 only while the fixture drives "
              + it
              + " there: add a vector where the card"
              + " does it alone";
      case NEVER_DRIVEN_1 ->
          is + " never driven to 1: no vector would notice " + it + " stuck at ground";
      case NEVER_DRIVEN_0 ->
          is + " never driven to 0: no vector would notice " + it + " stuck at supply";
      case STATE_NEVER_KNOWN ->
          "of the card's state "
              + is
              + " never known: add a step that sets "
              + it
              + " before anything is expected";
      case STATE_NEVER_ESTABLISHED ->
          "of the card's state "
              + is
              + " known from power-on alone: after a failure no vector"
              + " establishes "
              + it
              + " again";
      case SOMETIMES_JUDGED ->
          is + " judged in " + gap.judged() + " of " + vectors + " vectors" + outside;
    };
  }

  private String whyNever(Gap gap) {
    boolean predicted = card.behaviour().map(b -> b.predicts(gap.slot())).orElse(false);
    return predicted
        ? "what " + gap.name() + " hangs on is never known; set it first"
        : "give " + gap.name() + " a behaviour";
  }

  /** {@code S[11:8] (J4.12 to J4.9), S[0] (J4.1)}; labels too where the card prints them. */
  private String lines(Gap gap) {
    List<String> parts = new ArrayList<>();
    for (BitRange range : BitRange.of(gap.bits())) {
      String name = range.of(gap.name(), gap.width());
      parts.add(gap.slot() < card.buses().size() ? place(gap.slot(), range, name) : name);
    }
    return String.join(", ", parts);
  }

  private String place(int busIndex, BitRange range, String name) {
    Bus bus = card.buses().get(busIndex);
    if (range.high() == range.low()) {
      return bus.describe(range.low());
    }
    String labels =
        bus.labels().isEmpty()
            ? ""
            : bus.label(range.high()) + " to " + bus.label(range.low()) + ", ";
    String pins = bus.pins().get(range.high()) + " to " + bus.pins().get(range.low());
    return name + " (" + labels + pins + ")";
  }
}
