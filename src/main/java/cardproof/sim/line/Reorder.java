package cardproof.sim.line;

import java.util.random.RandomGenerator;

/**
 * Frames that are held up on their way while later ones overtake them.
 *
 * @param share of all frames, 0 to 1
 * @param withinNs held up by no more than this
 */
record Reorder(double share, long withinNs) implements Mishap {
  @Override
  public Stage on(RandomGenerator random) {
    return (piece, next) ->
        next.accept(
            random.nextDouble() < share
                ? piece.at(piece.atNs() + random.nextLong(1, withinNs + 1))
                : piece);
  }
}
