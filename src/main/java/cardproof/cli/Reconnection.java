package cardproof.cli;

import cardproof.link.HelloReply;
import cardproof.link.HostLink;
import cardproof.link.LinkException;
import cardproof.link.Wire;
import cardproof.link.serial.SamePort;
import cardproof.link.serial.SerialPorts;
import cardproof.link.serial.SerialWire;
import cardproof.log.RunAsked;
import cardproof.run.StopSignal;
import cardproof.text.Problem;
import java.security.SecureRandom;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Makes of a run that lost its board the one that continues it, once that board is back: as a run
 * of its own, from where what the card keeps is known, exactly as {@code --resume} would. A board
 * that is lost twice at one vector is not tried a third time: what that vector drives may be the
 * cause.
 */
final class Reconnection {
  private static final Logger LOG = LoggerFactory.getLogger(Reconnection.class);
  private static final long LOOK_MS = 200;

  private final ReconnectOptions.Wish wish;
  private final SamePort ports;
  private final int baud;
  private final StopSignal stop;
  private final Consumer<String> talk;
  private long lostAt = -1;

  /** Before the port is opened: which device it is can be seen only while it is there. */
  Reconnection(ReconnectOptions.Wish wish, RunSetup setup, StopSignal stop, Consumer<String> talk) {
    this.wish = wish;
    this.ports = SamePort.of(setup.port(), wish.others());
    this.baud = setup.profile().baud();
    this.stop = stop;
    this.talk = talk;
  }

  /** What to run next; empty where this is the end. */
  Optional<RunSetup> after(RunResult lost) {
    if (!lost.ending().mayReturn() || stop.reason().isPresent()) {
      return Optional.empty();
    }
    Earlier earlier = Earlier.read(lost.setup().logFile(), lost.runId()).from(lost.setup().plan());
    lost.ending().problem().map(Problem::toString).ifPresent(talk);
    if (earlier.at() == lostAt) {
      talk.accept(
          "The board was lost at vector "
              + (earlier.at() + 1)
              + " before: it is not tried again. Look at what that vector switches on.");
      return Optional.empty();
    }
    lostAt = earlier.at();
    talk.accept(
        "Run "
            + lost.runId()
            + " ends at vector "
            + (earlier.at() + 1)
            + ". Waiting for the board, "
            + TimeUnit.NANOSECONDS.toSeconds(wish.waitNs())
            + " s at most; Ctrl-C ends it.");
    return await(earlier)
        .map(
            port -> {
              talk.accept("The board is back at " + port + ".");
              RunAsked asked = lost.setup().asked();
              return lost.setup()
                  .continuing(
                      port,
                      new RunAsked(asked.only(), asked.skip(), Optional.of(earlier.continues())),
                      earlier);
            });
  }

  private Optional<String> await(Earlier earlier) {
    long untilNs = System.nanoTime() + wish.waitNs();
    while (stop.reason().isEmpty() && System.nanoTime() < untilNs) {
      for (String port : ports.candidates()) {
        if (stop.reason().isEmpty() && isBoard(port, earlier)) {
          return Optional.of(port);
        }
      }
      new SystemTime().waitUntil(System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(LOOK_MS));
    }
    return Optional.empty();
  }

  private boolean isBoard(String port, Earlier earlier) {
    try {
      SerialPorts.check(port);
      try (Wire wire = SerialWire.open(port, baud);
          HostLink link = HostLink.connect(wire, new SecureRandom())) {
        HelloReply hello = link.hello();
        boolean same = earlier.isBoard(hello);
        if (!same) {
          LOG.debug("{}: {} is another board", port, hello);
        }
        return same;
      }
    } catch (LinkException notYet) {
      LOG.debug("{}: not back yet", port, notYet);
      return false;
    }
  }
}
