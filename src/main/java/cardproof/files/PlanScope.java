package cardproof.files;

import cardproof.bits.Scope;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.Optional;
import java.util.Set;

/** The names of a card, and beside them the numbers that a plan has set. */
record PlanScope(Scope card, SetNames setNames) implements Scope {
  @Override
  public int slotOf(String name) {
    return card.slotOf(name);
  }

  @Override
  public int widthOf(int slot) {
    return card.widthOf(slot);
  }

  @Override
  public Optional<String> constant(String name) {
    return setNames.word(name);
  }

  @Override
  public Collection<String> names() {
    Set<String> all = new LinkedHashSet<>(card.names());
    all.addAll(setNames.words());
    return all;
  }
}
