package cardproof.run;

import cardproof.card.Card;
import cardproof.fixture.Session;
import cardproof.fixture.SessionEvent;
import cardproof.fixture.SupplySeen;
import cardproof.link.LinkException;
import cardproof.log.RunEnd;
import cardproof.text.Problem;
import java.util.Optional;

/** A fixture's switch in the supply, over a whole run: on before its first vector, off after. */
public final class CardSupply {
  private static final int NS_PER_US = 1000;

  private final Card card;
  private final Session session;

  public CardSupply(Card card, Session session) {
    this.card = card;
    this.session = session;
  }

  /**
   * Switches it on and leaves the card alone for as long as it may move; then looks whether the
   * supply has come up.
   *
   * @return how the run ends before it has begun; empty where all is well
   */
  public Optional<RunEnding> turnOn() {
    try {
      session.supply(true);
      if (session.pause(card.limits().watchUs() * NS_PER_US)
          instanceof SessionEvent.Dropped dropped) {
        return Optional.of(Endings.dropped(dropped.status(), Endings.About.of(session, 0)));
      }
      return session.senses() ? notUp(session.sense()) : Optional.empty();
    } catch (LinkException lost) {
      return Optional.of(Endings.lost(lost, Endings.About.of(session, 0)));
    }
  }

  private Optional<RunEnding> notUp(SupplySeen seen) {
    return new SupplyJudge(card)
        .trouble(seen)
        .map(
            words ->
                new RunEnding(
                    RunEnd.TRIPPED,
                    "with nothing driven " + words,
                    Optional.of(
                        new Problem(
                            session.name(),
                            "the supply was switched on, and with nothing driven " + words,
                            SupplyJudge.volts(card.supply().millivolts())
                                + " at less than "
                                + SupplyJudge.amps(card.supply().limitMilliamps()),
                            "Switch off and look for a short, a supply that is set too low, or a"
                                + " limit too low for what the card draws at rest"))));
  }

  /**
   * Switches it off, however the run ended: drives first. That wants a new session, since a fixture
   * that dropped its drives takes nothing else.
   *
   * @return what to tell the user where that could not be done
   */
  public Optional<Problem> turnOff() {
    try {
      session.openAnew();
      session.supply(false);
      session.stop();
      return Optional.empty();
    } catch (LinkException lost) {
      return Optional.of(
          new Problem(
              session.name(),
              "the fixture could not be told to switch the card's supply off ("
                  + lost.problem().found()
                  + ")",
              "",
              "Switch the supply off by hand"));
    }
  }
}
