package cardproof.card;

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
