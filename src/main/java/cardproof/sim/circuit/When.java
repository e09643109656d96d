package cardproof.sim.circuit;

import java.util.Optional;

/**
 * When a fault is there.
 *
 * @param fault its name, for what it adds to the wiring
 * @param spell while which it is there; empty for always
 */
record When(String fault, Optional<Spell> spell) {
  boolean always() {
    return spell.isEmpty();
  }
}
