package cardproof.cli;

import java.io.PrintWriter;

/**
 * Writes on a thread of its own, so that whoever speaks never waits for a terminal that was stopped
 * or a pipe that is full. Nothing is kept for later: what comes while it writes is left out.
 */
final class LeisurelyWriter {
  private static final long FINISH_MS = 200;

  private final PrintWriter out;
  private Thread thread;
  private String next;
  private boolean finished;

  LeisurelyWriter(PrintWriter out) {
    this.out = out;
  }

  /**
   * Has a text written, unless the one before still is.
   *
   * @return whether it will be
   */
  synchronized boolean offer(String text) {
    if (next != null || finished) {
      return false;
    }
    next = text;
    if (thread == null) {
      thread = new Thread(this::write, "progress");
      thread.setDaemon(true);
      thread.start();
    }
    notifyAll();
    return true;
  }

  /** Waits a moment for what is being written; nothing is written after it. */
  synchronized void finish() {
    finished = true;
    notifyAll();
    long untilNs = System.nanoTime() + FINISH_MS * 1_000_000;
    while (next != null && System.nanoTime() < untilNs) {
      waitFor(1 + (untilNs - System.nanoTime()) / 1_000_000);
    }
  }

  private void write() {
    for (String text = take(); text != null; text = take()) {
      out.print(text);
      out.flush();
      written();
    }
  }

  private synchronized String take() {
    while (next == null && !finished) {
      waitFor(0);
    }
    return next;
  }

  private synchronized void written() {
    next = null;
    notifyAll();
  }

  private synchronized void waitFor(long ms) {
    try {
      wait(ms);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      finished = true;
    }
  }
}
