package cardproof.sim.line;

import java.util.random.RandomGenerator;

/**
 * Frames that never arrive.
 *
 * @param share of all frames, 0 to 1
 */
record Lose(double share) implements Mishap {
  @Override
  public Stage on(RandomGenerator random) {
    return (piece, next) -> {
      if (random.nextDouble() >= share) {
        next.accept(piece);
      }
    };
  }
}
