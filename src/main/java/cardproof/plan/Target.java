package cardproof.plan;

import cardproof.card.Bus;
import cardproof.card.Card;

/**
 * What a plan names where words go: a bus, or one line of it.
 *
 * @param bit of the bus, or {@link #ALL}
 */
public record Target(int busIndex, int bit) {
  /** In place of a bit: every line of the bus. */
  public static final int ALL = -1;

  public static Target bus(int busIndex) {
    return new Target(busIndex, ALL);
  }

  public boolean wholeBus() {
    return bit == ALL;
  }

  public int width(Card card) {
    return wholeBus() ? card.buses().get(busIndex).width() : 1;
  }

  /** Its bits within the bus. */
  public long mask(Card card) {
    return wholeBus() ? card.buses().get(busIndex).mask() : 1L << bit;
  }

  /** What it is called: {@code S}, or {@code S[3]}. */
  public String name(Card card) {
    Bus bus = card.buses().get(busIndex);
    return wholeBus() ? bus.name() : bus.lineName(bit);
  }

  /** Puts a word of its width where it belongs in the bus. */
  long placed(long word) {
    return wholeBus() ? word : word << bit;
  }

  /** Sets it to a word of its width. */
  public Setting to(long word) {
    return wholeBus()
        ? Setting.to(busIndex, word)
        : new Setting(busIndex, 1L << bit, placed(word), false);
  }

  /** Lets go of it. */
  public Setting release() {
    return wholeBus() ? Setting.release(busIndex) : new Setting(busIndex, 1L << bit, 0, true);
  }
}
