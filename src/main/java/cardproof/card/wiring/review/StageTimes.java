package cardproof.card.wiring.review;

import cardproof.card.wiring.Relay;
import cardproof.card.wiring.RelayType;
import java.util.List;
import java.util.function.IntPredicate;

/**
 * The slowest of the relays that are used, nominal figures of their sheets.
 *
 * @param releaseUs with a diode across the coil where there is one
 * @param bounceUs longest of either throw
 */
public record StageTimes(long operateUs, long releaseUs, long bounceUs) {
  static StageTimes of(List<Relay> relays, IntPredicate slowed) {
    long operateUs = 0;
    long releaseUs = 0;
    long bounceUs = 0;
    for (int r = 0; r < relays.size(); r++) {
      RelayType type = relays.get(r).type();
      long us = (slowed.test(r) ? type.releaseWithDiode() : type.release()).nominalUs();
      operateUs = Math.max(operateUs, type.operate().nominalUs());
      releaseUs = Math.max(releaseUs, us);
      bounceUs =
          Math.max(bounceUs, Math.max(type.bounceNo().nominalUs(), type.bounceNc().nominalUs()));
    }
    return new StageTimes(operateUs, releaseUs, bounceUs);
  }
}
