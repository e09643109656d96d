package cardproof.cli;

import cardproof.fixture.Session;
import cardproof.link.Wire;
import cardproof.log.PowerOn;
import cardproof.run.StopSignal;
import cardproof.run.SupplySwitch;
import cardproof.sim.SimulatedBench;
import java.io.Console;
import java.util.Locale;
import java.util.Optional;

/** Who switches the supply for a plan: the fixture, the simulated bench itself, or a person. */
final class SupplyHands {
  private static final long LOOK_MS = 50;

  private SupplyHands() {}

  /** Empty where nobody is there: no switch, and no terminal to ask at. */
  static Optional<SupplySwitch> of(Session session, Wire wire, Screen screen, StopSignal stop) {
    if (session.canSwitchSupply()) {
      return Optional.of(SupplySwitch.ofFixture());
    }
    if (wire instanceof SimulatedBench bench) {
      return Optional.of(
          new SupplySwitch() {
            @Override
            public boolean turn(boolean on, Session same) {
              bench.switchByHand(on);
              return false;
            }

            @Override
            public PowerOn.How how() {
              return PowerOn.How.SIMULATED;
            }
          });
    }
    return Optional.ofNullable(System.console())
        .map(console -> (on, same) -> asked(on, same, console, screen, stop));
  }

  /**
   * Nobody can say how long a person takes, so the drives go down first and the session is opened
   * anew after it; otherwise the fixture's limit for a held pattern would run out.
   */
  private static boolean asked(
      boolean on, Session session, Console console, Screen screen, StopSignal stop) {
    session.stop();
    screen.err().println();
    screen.err().flush();
    String question =
        String.format(
            Locale.ROOT,
            "Every drive is down. Switch the card's supply %s, then press Enter ('stop' ends the run): ",
            on ? "ON" : "OFF");
    Optional<String> answer = answer(console, question, stop);
    if (answer.filter(text -> !text.strip().equalsIgnoreCase("stop")).isEmpty()) {
      stop.request("at the question about the supply");
      return true;
    }
    session.openAnew();
    session.arm();
    return true;
  }

  /** Empty where the answers ended, or the run was stopped meanwhile. */
  private static Optional<String> answer(Console console, String question, StopSignal stop) {
    String[] answer = new String[1];
    Thread reader = new Thread(() -> answer[0] = console.readLine("%s", question), "question");
    reader.setDaemon(true);
    reader.start();
    try {
      while (reader.isAlive() && stop.reason().isEmpty()) {
        reader.join(LOOK_MS);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      stop.request("interrupted");
    }
    return reader.isAlive() ? Optional.empty() : Optional.ofNullable(answer[0]);
  }
}
