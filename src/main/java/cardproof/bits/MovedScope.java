package cardproof.bits;

import java.util.Collection;
import java.util.Optional;
import java.util.function.IntUnaryOperator;

/** The names of one scope, standing for slots of another. */
record MovedScope(Scope from, IntUnaryOperator slotOf, Scope target) implements Scope {
  @Override
  public int slotOf(String name) {
    int slot = from.slotOf(name);
    return slot < 0 ? slot : slotOf.applyAsInt(slot);
  }

  @Override
  public int widthOf(int slot) {
    return target.widthOf(slot);
  }

  @Override
  public Optional<String> constant(String name) {
    return from.constant(name);
  }

  @Override
  public Collection<String> names() {
    return from.names();
  }
}
