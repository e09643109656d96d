package cardproof.card;

import cardproof.card.wiring.Wiring;
import cardproof.card.wiring.review.StageTimes;

/**
 * The times of a card's relays, and how many of them move in silence.
 *
 * @param unseenStages the most relay stages in series with no watched change between, the unseen
 *     tail included
 * @param operateUs to closure of all normally-open contacts, bounce excluded (IEC 61810-1)
 * @param releaseUs with whatever suppression the coils have
 * @param bounceUs longest
 */
public record RelayFigures(int unseenStages, long operateUs, long releaseUs, long bounceUs) {
  /**
   * Common figures of a small 12 V relay with a diode across its coil, for cards that give none.
   */
  public static final RelayFigures ASSUMED = new RelayFigures(1, 15_000, 18_000, 8_000);

  /**
   * The longest that the relays of a wiring take by their data sheets: operate, release (with a
   * diode for those that have one across the coil) and bounce, each the most of all relays. Where
   * there are no relays the times are those of {@link #ASSUMED}.
   *
   * @param unseenStages as many as move in silence, one after the other
   */
  public static RelayFigures of(Wiring wiring, int unseenStages) {
    if (wiring.relays().isEmpty()) {
      return new RelayFigures(unseenStages, ASSUMED.operateUs, ASSUMED.releaseUs, ASSUMED.bounceUs);
    }
    StageTimes times = StageTimes.of(wiring);
    return new RelayFigures(unseenStages, times.operateUs(), times.releaseUs(), times.bounceUs());
  }

  /** How long the longest chain that moves unseen takes: stages x (slower one, plus bounce). */
  public long silentChainUs() {
    return unseenStages * (Math.max(operateUs, releaseUs) + bounceUs);
  }

  /**
   * The shortest quiet window that cannot take a card for settled while a relay is still travelling
   * unseen: 1.25 x stages x (slower of operate and release, plus bounce).
   */
  public long quietFloorUs() {
    return (5 * silentChainUs() + 3) / 4;
  }
}
