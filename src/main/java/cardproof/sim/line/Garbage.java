package cardproof.sim.line;

import java.util.random.RandomGenerator;

/**
 * Frames before which up to sixteen bytes come that nobody sent. Without a zero among the last of
 * them they spoil the frame too.
 *
 * @param share of all frames, 0 to 1
 */
record Garbage(double share) implements Mishap {
  private static final int MOST = 16;

  @Override
  public Stage on(RandomGenerator random) {
    return (piece, next) -> {
      if (random.nextDouble() < share) {
        byte[] stray = new byte[random.nextInt(1, MOST + 1)];
        random.nextBytes(stray);
        next.accept(piece.with(stray));
      }
      next.accept(piece);
    };
  }
}
