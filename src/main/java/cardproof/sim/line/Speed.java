package cardproof.sim.line;

import java.util.function.Consumer;
import java.util.random.RandomGenerator;

/**
 * A line that carries no more than so many bits a second: 8 data bits, a start and a stop bit for
 * each byte. A frame has arrived when its last byte has.
 *
 * @param baud bits a second
 */
record Speed(long baud) implements Mishap {
  private static final long BITS = 10;
  private static final long NS_PER_S = 1_000_000_000;

  @Override
  public Stage on(RandomGenerator random) {
    return new Stage() {
      private long freeNs;

      @Override
      public void pass(Piece piece, Consumer<Piece> next) {
        long takesNs = piece.bytes().length * BITS * NS_PER_S / baud;
        freeNs = Math.max(freeNs, piece.atNs()) + takesNs;
        next.accept(piece.at(freeNs));
      }
    };
  }
}
