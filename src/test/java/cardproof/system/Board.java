package cardproof.system;

import cardproof.pty.BoardMaker;
import cardproof.pty.Journal;
import cardproof.pty.PtyProcess;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** A simulated board with a card on it, on a serial port, in a process of its own. */
final class Board implements AutoCloseable {
  private final PtyProcess process;
  private final Journal journal = new Journal();

  private Board(PtyProcess process) {
    this.process = process;
    process.follow(journal::take);
  }

  /**
   * @param settings {@code key=value}, as {@link BoardMaker} has them
   */
  static Board with(String cardFile, String... settings) {
    List<String> arguments = new ArrayList<>(List.of(settings));
    arguments.add("card=" + cardFile);
    return new Board(PtyProcess.start(BoardMaker.class, arguments.toArray(new String[0])));
  }

  String port() {
    return process.port();
  }

  Journal journal() {
    return journal;
  }

  /** Does something to it: a letter of {@link cardproof.pty.PacedBoard}. */
  void command(char what) {
    process.command(what);
  }

  /** Pulls the plug and puts it into another socket, under another name. */
  void replug() throws InterruptedException {
    String before = process.port();
    process.command(PtyProcess.REPLUG);
    long deadlineNs = System.nanoTime() + TimeUnit.SECONDS.toNanos(10);
    while (process.port().equals(before)) {
      if (System.nanoTime() > deadlineNs) {
        throw new IllegalStateException("the board was not plugged in again");
      }
      TimeUnit.MILLISECONDS.sleep(1);
    }
  }

  void unplug() {
    process.kill();
  }

  /** After this the journal is complete. */
  @Override
  public void close() {
    process.close();
  }
}
