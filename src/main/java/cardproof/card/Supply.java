package cardproof.card;

import java.util.OptionalLong;

/**
 * What a card is powered with: its working voltage and the most current it should ever draw.
 *
 * @param leastMillivolts below which its relays cannot be relied on; empty where nothing is said
 */
public record Supply(long millivolts, long limitMilliamps, OptionalLong leastMillivolts) {
  /** A card that leaves it to its relays how low its supply may fall. */
  public Supply(long millivolts, long limitMilliamps) {
    this(millivolts, limitMilliamps, OptionalLong.empty());
  }
}
