package cardproof.sim.line;

import java.util.random.RandomGenerator;

/** One kind of thing that goes wrong on a line, with its figures. */
@FunctionalInterface
interface Mishap {
  /**
   * A fresh stretch of line on which it happens.
   *
   * @param random of this stretch alone, so that one mishap more shifts nothing that another draws
   */
  Stage on(RandomGenerator random);
}
