package cardproof.cli;

import cardproof.fixture.Session;
import cardproof.run.StopSignal;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;

/**
 * What a run does when it is told to stop. Ctrl-C lets the vector under way come to its end; a
 * second one, and every other signal, drops the drives at once. Should the thread that runs the
 * plan be stuck, as on a disk that hangs, the fixture is told from here. A third Ctrl-C ends the
 * program, whatever it waits for. Signals come on threads of their own.
 */
final class StopHandler {
  private static final String CTRL_C = "INT";

  /** Longer than a run that is not stuck needs to see that it shall stop. */
  private static final long PATIENCE_MS = 250;

  /** The next one ends the program there and then. */
  private static final int MOST_INTERRUPTS = 2;

  private final StopSignal stop;
  private final AtomicInteger interrupts = new AtomicInteger();
  private final AtomicReference<Session> session = new AtomicReference<>();
  private volatile CountDownLatch driving = new CountDownLatch(0);

  StopHandler(StopSignal stop) {
    this.stop = stop;
  }

  /**
   * From now on a card is driven through this session, over a line that any thread may write to.
   */
  void driving(Session through) {
    driving = new CountDownLatch(1);
    session.set(through);
  }

  /** The drives are down, as far as this program can tell. */
  void down() {
    session.set(null);
    driving.countDown();
  }

  /** A signal came. */
  void signal(String name) {
    boolean again = stop.reason().isPresent();
    // counted, since signals of two kinds may overtake each other
    if (name.equals(CTRL_C) && interrupts.incrementAndGet() > MOST_INTERRUPTS) {
      Optional.ofNullable(session.get()).ifPresent(Session::dropNow);
      Runtime.getRuntime().halt(ExitCode.STOPPED);
    }
    if (again || !name.equals(CTRL_C)) {
      stop.requestNow(name);
      makeSure();
    } else {
      stop.request(name);
    }
  }

  private void makeSure() {
    try {
      if (!driving.await(PATIENCE_MS, TimeUnit.MILLISECONDS)) {
        Optional.ofNullable(session.get()).ifPresent(Session::dropNow);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
