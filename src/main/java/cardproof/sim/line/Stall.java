package cardproof.sim.line;

import java.util.random.RandomGenerator;

/** Times at which nothing comes, and at whose end all comes that was held up. */
record Stall(Spells when) implements Mishap {
  @Override
  public Stage on(RandomGenerator random) {
    return (piece, next) ->
        next.accept(when.includes(piece.atNs()) ? piece.at(when.endNs(piece.atNs())) : piece);
  }
}
