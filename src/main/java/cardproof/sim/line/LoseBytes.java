package cardproof.sim.line;

import java.util.Arrays;
import java.util.random.RandomGenerator;

/**
 * Frames that arrive with up to four neighbouring bytes gone, as after an overrun. Where the ending
 * zero is among them, the next frame is joined to this one.
 *
 * @param share of all frames, 0 to 1
 */
record LoseBytes(double share) implements Mishap {
  private static final int MOST = 4;

  @Override
  public Stage on(RandomGenerator random) {
    return (piece, next) -> {
      Piece rest =
          random.nextDouble() < share ? piece.with(shortened(piece.bytes(), random)) : piece;
      if (rest.bytes().length > 0) {
        next.accept(rest);
      }
    };
  }

  private static byte[] shortened(byte[] bytes, RandomGenerator random) {
    int gone = random.nextInt(1, Math.min(MOST, bytes.length) + 1);
    int at = random.nextInt(bytes.length - gone + 1);
    byte[] rest = Arrays.copyOf(bytes, bytes.length - gone);
    System.arraycopy(bytes, at + gone, rest, at, rest.length - at);
    return rest;
  }
}
