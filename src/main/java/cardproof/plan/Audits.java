package cardproof.plan;

/**
 * Which vectors are watched to their end even when they look settled: the first of each step and
 * every twentieth of the plan, so that a quiet window that is too short cannot hide for long. Asked
 * once for every vector, in order. Not thread safe.
 */
public final class Audits {
  private static final int EVERY = 20;

  private int previousStep = -1;

  public boolean includes(Vector vector) {
    boolean first = vector.stepNumber() != previousStep;
    previousStep = vector.stepNumber();
    return first || vector.number() % EVERY == 0;
  }
}
