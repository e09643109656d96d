package cardproof.run;

import cardproof.fixture.Observation;
import cardproof.plan.Vector;

/**
 * A vector with what came of it.
 *
 * @param vector with what could be expected of it when it was judged
 */
public record Judged(Vector vector, Observation observation, Judgement judgement) {}
