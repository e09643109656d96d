package cardproof.pty;

import cardproof.link.Beat;
import cardproof.link.Message;
import cardproof.link.Open;
import cardproof.link.Result;
import cardproof.link.Stop;
import java.io.PrintStream;
import java.util.BitSet;

/**
 * Prints what matters to a {@link Journal}, each line at once, with the time at which it really
 * happened: {@code System.nanoTime}, which on Linux is CLOCK_MONOTONIC for every process alike.
 */
final class JournalWriter implements BoardEvents {
  static final String DRIVES = "drives";
  static final String OPENED = "opened";
  static final String STOP = "stop";
  static final String ACKED = "acked";
  static final String ENDED = "ended";

  private final PrintStream out;

  /**
   * @param out flushes each line
   */
  JournalWriter(PrintStream out) {
    this.out = out;
  }

  @Override
  public void drives(BitSet on) {
    line(DRIVES, on.cardinality());
  }

  @Override
  public void heard(Message fromHost) {
    if (fromHost instanceof Open) {
      line(OPENED, 0);
    } else if (fromHost instanceof Stop) {
      line(STOP, 0);
    } else if (fromHost instanceof Beat beat) {
      line(ACKED, beat.ack());
    }
  }

  @Override
  public void said(Message toHost) {
    if (toHost instanceof Result result) {
      line(ENDED, result.number());
    }
  }

  private void line(String what, int figure) {
    out.println(what + " " + System.nanoTime() + " " + figure);
  }
}
