package cardproof.sim.line;

import java.util.random.RandomGenerator;

/**
 * Frames that come twice. What lies further on befalls each of the two on its own.
 *
 * @param share of all frames, 0 to 1
 */
record Repeat(double share) implements Mishap {
  @Override
  public Stage on(RandomGenerator random) {
    return (piece, next) -> {
      next.accept(piece);
      if (random.nextDouble() < share) {
        next.accept(piece);
      }
    };
  }
}
