package cardproof.sim.line;

import java.util.function.Consumer;

/**
 * A stretch of one direction of the line, and what it does to what passes: hands on each piece, at
 * the same time or later, as it is or changed, once, twice or not at all. Says at once when each
 * will come out, so no stage keeps anything back.
 */
@FunctionalInterface
interface Stage {
  /** Pieces come in the order of their times: one that was held up before comes later. */
  void pass(Piece piece, Consumer<Piece> next);
}
