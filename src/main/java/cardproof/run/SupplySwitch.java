package cardproof.run;

import cardproof.fixture.Session;
import cardproof.log.PowerOn;

/** Whoever switches the card's supply for a step that asks for it. */
public interface SupplySwitch {
  /**
   * Switches, with every vector judged and nothing on its way; the drives are down when it returns,
   * and the session is armed.
   *
   * @return whether the session had to be opened anew for that, so that patterns are counted from 0
   * @throws cardproof.link.LinkException when the fixture cannot, or the line to it is lost
   */
  boolean turn(boolean on, Session session);

  /** What the bench log says of it. */
  default PowerOn.How how() {
    return PowerOn.How.BY_HAND;
  }

  /** The fixture's own switch. */
  static SupplySwitch ofFixture() {
    return new SupplySwitch() {
      @Override
      public boolean turn(boolean on, Session session) {
        session.supply(on);
        return false;
      }

      @Override
      public PowerOn.How how() {
        return PowerOn.How.BY_FIXTURE;
      }
    };
  }
}
