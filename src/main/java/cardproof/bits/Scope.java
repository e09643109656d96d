package cardproof.bits;

import java.util.Collection;
import java.util.Optional;

/** The names an expression may use, and the slot and width that each stands for. */
public interface Scope {
  /** The slot of a name, or -1 when the name is unknown. */
  int slotOf(String name);

  /** Bits of a slot, 1 to 64. */
  int widthOf(int slot);

  /** The number, as it would be written, that a name stands for; empty where it names no number. */
  default Optional<String> constant(String name) {
    return Optional.empty();
  }

  /** Every known name, for the nearest one to a mistyped one. */
  Collection<String> names();
}
