package cardproof.files;

import cardproof.card.wiring.Spot;
import cardproof.text.Position;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * One moment of spelling out an entry.
 *
 * @param name in full
 * @param at where the entry is written
 */
record Making(String name, Optional<Spot> spot, Position at, Place place, RepeatValues values) {
  /** The number of a net; empty, with a problem said, where it cannot be. */
  OptionalInt net(IndexText text) {
    return place.net(text, values);
  }

  void error(Position at, String found, String wanted, String next) {
    place.error(at, found, wanted, next, values);
  }
}
