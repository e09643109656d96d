package cardproof.card;

import cardproof.bits.Scope;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * The names a card's expressions may use: its buses, in the card's order, then what it has inside
 * (buses that leave none of its connectors, as between two cards that are one unit), then its
 * states. A slot number is the position in that sequence.
 */
public final class CardScope implements Scope {
  private final Map<String, Integer> slots = new HashMap<>();
  private final List<String> names = new ArrayList<>();
  private final List<Integer> widths = new ArrayList<>();

  public CardScope(List<Bus> buses) {
    buses.forEach(bus -> add(bus.name(), bus.width()));
  }

  /** Adds what no line shows, before any state. Its slot, which is returned, is the next free. */
  public int addInner(String name, int width) {
    return add(name, width);
  }

  /** Adds a state behind all else. Its slot, which is returned, is the next free one. */
  public int addState(String name, int width) {
    return add(name, width);
  }

  private int add(String name, int width) {
    slots.putIfAbsent(name, names.size());
    names.add(name);
    widths.add(width);
    return names.size() - 1;
  }

  @Override
  public int slotOf(String name) {
    return slots.getOrDefault(name, -1);
  }

  @Override
  public int widthOf(int slot) {
    return widths.get(slot);
  }

  @Override
  public Collection<String> names() {
    return List.copyOf(names);
  }

  public String nameOf(int slot) {
    return names.get(slot);
  }

  public int size() {
    return names.size();
  }
}
