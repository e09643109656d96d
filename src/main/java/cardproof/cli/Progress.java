package cardproof.cli;

import java.util.Locale;
import java.util.function.LongSupplier;

/**
 * One moving line on a terminal: how far, how fast, how long still; elsewhere a plain line now and
 * then. Shows nothing in the first second. A terminal that is held, or a pipe that nobody reads,
 * holds up nobody: lines that it does not take are left out.
 */
final class Progress {
  private static final long FIRST_NS = 1_000_000_000L;
  private static final long TERMINAL_EVERY_NS = 100_000_000L;
  private static final long PLAIN_EVERY_NS = 10_000_000_000L;
  private static final int BAR = 30;

  private final Screen screen;
  private final LeisurelyWriter writer;
  private final LongSupplier nanoTime;
  private final String unit;
  private final long total;
  private final long startNs;
  private long nextNs;
  private boolean shown;

  Progress(Screen screen, LongSupplier nanoTime, String unit, long total) {
    this.screen = screen;
    this.writer = new LeisurelyWriter(screen.err());
    this.nanoTime = nanoTime;
    this.unit = unit;
    this.total = total;
    this.startNs = nanoTime.getAsLong();
    this.nextNs = startNs + FIRST_NS;
  }

  /**
   * @param note said after the figures, such as how many failed; may be empty
   */
  void at(long done, String note) {
    long nowNs = nanoTime.getAsLong();
    if (nowNs - nextNs < 0) {
      return;
    }
    nextNs = nowNs + (screen.terminal() ? TERMINAL_EVERY_NS : PLAIN_EVERY_NS);
    String line = line(done, nowNs - startNs, note);
    shown |=
        writer.offer(screen.terminal() ? "\r" + line + "\u001b[K" : line + System.lineSeparator());
  }

  /** Takes the moving line away. */
  void done() {
    writer.finish();
    if (shown && screen.terminal()) {
      screen.err().print("\r\u001b[K");
      screen.err().flush();
    }
  }

  private String line(long done, long elapsedNs, String note) {
    double rate = done * 1e9 / Math.max(1, elapsedNs);
    long leftSeconds = rate == 0 ? 0 : Math.round((total - done) / rate);
    int filled = (int) (BAR * done / Math.max(1, total));
    return String.format(
        Locale.ROOT,
        "%s%s  %d of %d %s  %s/s  %d:%02d left%s",
        "#".repeat(filled),
        ".".repeat(BAR - filled),
        done,
        total,
        unit,
        rate < 10 ? String.format(Locale.ROOT, "%.1f", rate) : String.valueOf(Math.round(rate)),
        leftSeconds / 60,
        leftSeconds % 60,
        note.isEmpty() ? "" : "  " + note);
  }
}
