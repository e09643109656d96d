package cardproof.sim.circuit;

import cardproof.card.wiring.Lamp;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.RelayType;
import java.util.List;

/**
 * Spreads the resistance of coils and the current of lamps as it is spread over real ones: evenly,
 * up to a stated part of what their type says, drawn from the unit and the name of the part.
 *
 * <p>Data sheets state coil resistance to 10 % at 20 or 23 degrees (TE Schrack PT, Omron MY4; from
 * memory).
 */
public final class Tolerances {
  private static final int RESISTANCE = 31;

  private Tolerances() {}

  /**
   * @param percent 0 leaves all as it is
   * @param unit key of the unit
   */
  public static FaultyWiring spread(FaultyWiring card, int percent, long unit) {
    if (percent == 0) {
      return card;
    }
    List<Part> parts =
        card.wiring().parts().stream().map(part -> spread(part, percent / 100.0, unit)).toList();
    return new FaultyWiring(card.wiring().withParts(parts), card.switches(), card.slowerByUs());
  }

  private static Part spread(Part part, double share, long unit) {
    double factor = Draws.around1(Draws.key(Draws.key(unit, part.name()), RESISTANCE), share);
    if (part instanceof Relay relay) {
      return spread(relay, factor);
    }
    return part instanceof Lamp lamp ? spread(lamp, factor) : part;
  }

  private static Relay spread(Relay relay, double factor) {
    RelayType type = relay.type();
    RelayType own =
        new RelayType(
            type.name(),
            type.title(),
            type.poles(),
            type.coilMillivolts(),
            type.coilOhms() * factor,
            type.operatePercent(),
            type.releasePercent(),
            type.operate(),
            type.release(),
            type.releaseWithDiode(),
            type.bounceNo(),
            type.bounceNc(),
            type.lifeOperations(),
            type.terminals(),
            type.source(),
            type.contactMillivolts(),
            type.contactMilliamps(),
            type.at());
    return new Relay(
        relay.name(),
        own,
        relay.coil1(),
        relay.coil2(),
        relay.poles(),
        relay.socket(),
        relay.spot(),
        relay.at());
  }

  /** Kept as a rating in whole milliamps at a voltage a thousand times as fine. */
  private static Lamp spread(Lamp lamp, double factor) {
    long fine = 1_000;
    return new Lamp(
        lamp.name(),
        lamp.first(),
        lamp.second(),
        Math.round(lamp.millivolts() * fine * factor),
        lamp.milliamps() * fine,
        lamp.spot(),
        lamp.at());
  }
}
