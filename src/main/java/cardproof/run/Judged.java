package cardproof.run;

import cardproof.fixture.Observation;
import cardproof.plan.Vector;
import java.util.OptionalInt;

/**
 * A vector with what came of it.
 *
 * @param vector with what could be expected of it when it was judged
 * @param expectedMa what a sound card draws at its end by its wiring; empty where that is not known
 */
public record Judged(
    Vector vector, Observation observation, Judgement judgement, OptionalInt expectedMa) {
  /** Of a card of which nobody knows what it should draw. */
  public Judged(Vector vector, Observation observation, Judgement judgement) {
    this(vector, observation, judgement, OptionalInt.empty());
  }

  /** Whether the vector was judged and did not pass. */
  boolean isFailure() {
    return judgement.verdict().isFailure();
  }
}
