package cardproof.bits;

import java.util.Collection;

/** The names an expression may use, and the slot and width that each stands for. */
public interface Scope {
  /** The slot of a name, or -1 when the name is unknown. */
  int slotOf(String name);

  /** Bits of a slot, 1 to 64. */
  int widthOf(int slot);

  /** Every known name, for the nearest one to a mistyped one. */
  Collection<String> names();
}
