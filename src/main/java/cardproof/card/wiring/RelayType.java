package cardproof.card.wiring;

import cardproof.text.Position;
import java.util.Map;

/**
 * A kind of relay, with the figures of its data sheet. Terms are those of IEC 61810-1: bounce is no
 * part of operate or release.
 *
 * @param poles change-over contacts, 1 to 6
 * @param coilMillivolts rated
 * @param operatePercent of the rated voltage from which it operates for certain
 * @param releasePercent of the rated voltage below which it releases for certain; between the two
 *     it stays as it is
 * @param operate from energising to closure of the normally open contacts
 * @param release from de-energising to closure of the normally closed contacts, nothing across the
 *     coil
 * @param releaseWithDiode the same with a diode across the coil, which lengthens it
 * @param bounceNo of a normally open contact after it first makes
 * @param bounceNc of a normally closed one
 * @param lifeOperations mechanical; 0 where not stated
 * @param terminals where each terminal sits, from the relay's own corner; empty where not stated
 * @param source maker, sheet and edition that the figures are from
 * @param contactMillivolts of the least load that its contacts want; 0 where not stated
 * @param contactMilliamps of the same
 */
public record RelayType(
    String name,
    String title,
    int poles,
    long coilMillivolts,
    double coilOhms,
    int operatePercent,
    int releasePercent,
    Figure operate,
    Figure release,
    Figure releaseWithDiode,
    Figure bounceNo,
    Figure bounceNc,
    long lifeOperations,
    Map<String, Spot> terminals,
    String source,
    long contactMillivolts,
    long contactMilliamps,
    Position at) {
  public static final int MOST_POLES = 6;
  public static final int DEFAULT_OPERATE_PERCENT = 75;
  public static final int DEFAULT_RELEASE_PERCENT = 10;

  public RelayType {
    terminals = Map.copyOf(terminals);
    if (poles < 1 || poles > MOST_POLES || !(coilOhms > 0) || coilMillivolts <= 0) {
      throw new IllegalArgumentException("relay type " + name + " cannot be");
    }
  }

  /** A type of which nobody said what load its contacts want. */
  public RelayType(
      String name,
      String title,
      int poles,
      long coilMillivolts,
      double coilOhms,
      int operatePercent,
      int releasePercent,
      Figure operate,
      Figure release,
      Figure releaseWithDiode,
      Figure bounceNo,
      Figure bounceNc,
      long lifeOperations,
      Map<String, Spot> terminals,
      String source,
      Position at) {
    this(
        name,
        title,
        poles,
        coilMillivolts,
        coilOhms,
        operatePercent,
        releasePercent,
        operate,
        release,
        releaseWithDiode,
        bounceNo,
        bounceNc,
        lifeOperations,
        terminals,
        source,
        0,
        0,
        at);
  }
}
