package cardproof.files;

import cardproof.card.wiring.Spot;
import java.util.Optional;

/** An entry of {@code parts} with its repeat, read but not spelled out. */
record PartEntry(IndexText name, Repeat repeat, Optional<SpotText> spot, PartForm form) {
  /** How many parts it stands for; {@code Long.MAX_VALUE} where that is beyond counting. */
  long parts() {
    try {
      return Math.multiplyExact(repeat.count(), form.parts());
    } catch (ArithmeticException tooMany) {
      return Long.MAX_VALUE;
    }
  }

  void spellOut(Place place) {
    repeat.forEach(values -> spellOut(place, values));
  }

  private void spellOut(Place place, RepeatValues values) {
    try {
      String full = place.fullName(name.name(values));
      Optional<Spot> where = spot.map(text -> place.spot(text.spot(values)));
      if (place.claim(full, name, values)) {
        form.make(new Making(full, where, name.at(), place, values));
      }
    } catch (IndexException without) {
      place.error(
          name.at(),
          name.text().described() + " " + without.getMessage(),
          "indices from 0 up, and places to the right of the corner and above it",
          "",
          values);
    }
  }
}
