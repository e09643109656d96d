package cardproof.sim.circuit;

/**
 * When a fault that comes and goes is there. Time is cut into dwells, the first from 0, and in each
 * it is present or not, drawn from the key and the number of the dwell alone.
 *
 * @param probability that it is present in a dwell, 0 to 1
 * @param key what the draws are keyed by; equal keys come and go together
 */
public record Spell(double probability, long dwellNs, long key) {
  public Spell {
    if (!(probability >= 0 && probability <= 1) || dwellNs <= 0) {
      throw new IllegalArgumentException(probability + " in dwells of " + dwellNs + " ns");
    }
  }
}
