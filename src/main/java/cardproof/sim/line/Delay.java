package cardproof.sim.line;

import java.util.function.Consumer;
import java.util.random.RandomGenerator;

/**
 * Time that every frame takes. It is drawn anew for each, and none overtakes another.
 *
 * @param leastNs at least
 * @param mostNs at most; the same as {@code leastNs} where all take the same
 */
record Delay(long leastNs, long mostNs) implements Mishap {
  @Override
  public Stage on(RandomGenerator random) {
    if (leastNs == mostNs) {
      return (piece, next) -> next.accept(piece.at(piece.atNs() + leastNs));
    }
    return new Stage() {
      private long lastNs;

      @Override
      public void pass(Piece piece, Consumer<Piece> next) {
        lastNs = Math.max(lastNs, piece.atNs() + random.nextLong(leastNs, mostNs + 1));
        next.accept(piece.at(lastNs));
      }
    };
  }
}
