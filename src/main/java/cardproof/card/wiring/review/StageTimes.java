package cardproof.card.wiring.review;

import cardproof.card.wiring.Figure;
import cardproof.card.wiring.RelayType;
import cardproof.card.wiring.Wiring;

/**
 * The slowest of the relays that are used, nominal figures of their sheets; zeros without relays.
 *
 * @param releaseUs with a diode across the coil where there is one
 * @param bounceUs longest of either throw
 */
public record StageTimes(long operateUs, long releaseUs, long bounceUs) {
  public static StageTimes of(Wiring wiring) {
    return of(new Circuit(wiring));
  }

  static StageTimes of(Circuit circuit) {
    Flyback flyback = new Flyback(circuit);
    long operateUs = 0;
    long releaseUs = 0;
    long bounceUs = 0;
    for (int r = 0; r < circuit.relays().size(); r++) {
      RelayType type = circuit.relays().get(r).type();
      boolean slowed = flyback.slows(circuit.coil(r));
      Figure release = slowed ? type.releaseWithDiode() : type.release();
      operateUs = Math.max(operateUs, type.operate().nominalUs());
      releaseUs = Math.max(releaseUs, release.nominalUs());
      bounceUs = Math.max(bounceUs, type.bounceNo().nominalUs());
      bounceUs = Math.max(bounceUs, type.bounceNc().nominalUs());
    }
    return new StageTimes(operateUs, releaseUs, bounceUs);
  }
}
