package cardproof.sim.line;

import java.util.random.RandomGenerator;

/** Times at which the line is dead: what is on it then is gone. */
record Cut(Spells when) implements Mishap {
  @Override
  public Stage on(RandomGenerator random) {
    return (piece, next) -> {
      if (!when.includes(piece.atNs())) {
        next.accept(piece);
      }
    };
  }
}
