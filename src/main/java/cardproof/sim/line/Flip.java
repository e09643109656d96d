package cardproof.sim.line;

import java.util.random.RandomGenerator;

/**
 * Frames that arrive with one or three bits the other way; never two, which could be one twice.
 *
 * @param share of all frames, 0 to 1
 */
record Flip(double share) implements Mishap {
  @Override
  public Stage on(RandomGenerator random) {
    return (piece, next) ->
        next.accept(random.nextDouble() < share ? piece.with(flipped(piece, random)) : piece);
  }

  private static byte[] flipped(Piece piece, RandomGenerator random) {
    byte[] bytes = piece.bytes().clone();
    int count = random.nextBoolean() ? 1 : 3;
    for (int i = 0; i < count; i++) {
      bytes[random.nextInt(bytes.length)] ^= (byte) (1 << random.nextInt(Byte.SIZE));
    }
    return bytes;
  }
}
