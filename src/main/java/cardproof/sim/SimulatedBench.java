package cardproof.sim;

import cardproof.card.Card;
import cardproof.link.LinkException;
import cardproof.link.Wire;
import cardproof.sim.circuit.CircuitWarnings;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.util.Optional;

/**
 * The simulated fixture with its card, in this process and in virtual time: {@link #read} is what
 * lets time pass. Deterministic; one thread at a time. Whether it keeps to a wall clock makes no
 * difference to what happens, only to when.
 */
public final class SimulatedBench implements Wire {
  private final Rig rig;
  private final EventQueue queue;
  private final EventQueue.Timer repeat;
  private final String name;
  private Pace pace = virtualNs -> {};
  private byte[] repeated = {};
  private long periodNs;
  private long untilNs;
  private long writtenNs;
  private boolean closed;

  /**
   * @param lineOfDrive {@link cardproof.card.Line#index} by drive channel, -1 where joined to
   *     nothing
   * @param lineOfWatch the same by watch channel
   * @throws RefusedException when the card has no behaviour that could be simulated
   */
  public SimulatedBench(Card card, int[] lineOfDrive, int[] lineOfWatch, SimSettings settings) {
    this(new Rig(card, lineOfDrive, lineOfWatch, settings), settings.board());
  }

  SimulatedBench(Rig rig, String name) {
    this.rig = rig;
    this.queue = rig.queue;
    this.name = name;
    this.repeat = queue.timer(this::repeatDue);
  }

  @Override
  public String name() {
    return name;
  }

  @Override
  public long nowNs() {
    return queue.nowNs();
  }

  @Override
  public void write(byte[] bytes) {
    checkOpen();
    put(bytes.clone());
  }

  @Override
  public int read(byte[] into, long deadlineNs) {
    checkOpen();
    while (rig.toHost.isEmpty() && queue.nextDueNs() <= deadlineNs) {
      if (queue.nextDueNs() == EventQueue.NEVER) {
        throw new IllegalStateException("waiting for ever on a bench where nothing is due");
      }
      pace.await(queue.nextDueNs());
      queue.runNext();
    }
    if (rig.toHost.isEmpty()) {
      pace.await(Math.max(deadlineNs, queue.nowNs()));
      queue.runUntil(deadlineNs);
    }
    return rig.toHost.take(into);
  }

  @Override
  public void keepAlive(byte[] frame, long everyNs, long endNs) {
    checkOpen();
    if (everyNs <= 0) {
      throw new IllegalArgumentException("a frame every " + everyNs + " ns");
    }
    repeated = frame.clone();
    periodNs = everyNs;
    untilNs = endNs;
    repeat.at(Math.max(writtenNs + periodNs, queue.nowNs()));
  }

  @Override
  public void close() {
    closed = true;
    repeat.cancel();
  }

  /**
   * From now on a second of card time takes a second of this clock. Time that the program itself
   * needs is caught up with; a longer stop, such as a computer asleep, stops the card's time too.
   */
  public void keepTo(WallClock clock) {
    pace = new WallPace(clock, queue.nowNs());
  }

  /** Whether the card is simulated from its wiring, else from its behaviour. */
  public boolean fromWiring() {
    return rig.fromWiring();
  }

  /** Shorts, weak levels, blown fuses and the like; empty for a card simulated from behaviour. */
  public Optional<CircuitWarnings> warnings() {
    return rig.warnings();
  }

  /** From now on tells of every edge on the card, and of every step; one listener at a time. */
  public void tap(WaveListener who) {
    rig.tap(who);
  }

  /** Lets every edge up to now be told, also those that the fixture has not sampled yet. */
  public void catchUp() {
    rig.catchUp();
  }

  /** From now on tells of all that goes over the line; one listener at a time. */
  public void trace(FrameTrace who) {
    rig.trace(who);
  }

  /** From now on tells of each time the drives are switched; one listener at a time. */
  public void watchDrives(DriveListener who) {
    rig.fixture.drives().listen(who);
  }

  /**
   * Switches the supply of a bench whose fixture has no switch, as somebody would who lets go of
   * every drive before.
   */
  public void switchByHand(boolean on) {
    rig.switchByHand(on);
  }

  /** Resets the fixture, now, as its reset button would. */
  public void resetFixture(ResetCause why) {
    rig.fixture.reset(why);
  }

  private void repeatDue() {
    long dueNs = writtenNs + periodNs;
    if (queue.nowNs() < dueNs) {
      repeat.at(dueNs);
    } else if (queue.nowNs() <= untilNs) {
      put(repeated);
      repeat.at(writtenNs + periodNs);
    }
  }

  private void put(byte[] bytes) {
    writtenNs = queue.nowNs();
    rig.fromHost(bytes);
  }

  private void checkOpen() {
    if (closed) {
      throw new LinkException(new Problem(name, "the bench was closed", "an open one", ""));
    }
  }
}
