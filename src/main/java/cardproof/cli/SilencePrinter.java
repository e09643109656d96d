package cardproof.cli;

import cardproof.log.LineName;
import cardproof.text.Micros;
import cardproof.timing.SettleTable;
import cardproof.timing.Silence;
import java.io.PrintWriter;

/** Says whether the settle times of a run can be relied on, and how far it is from the limit. */
final class SilencePrinter {
  private final PrintWriter out;
  private final Screen screen;

  SilencePrinter(Screen screen) {
    this.screen = screen;
    this.out = screen.out();
  }

  void print(SettleTable table) {
    if (table.superseded() > 0) {
      out.printf(
          "%s: after %s the card moved once more when it had been taken for settled.%n",
          screen.bad("SETTLE TIMES OF THIS RUN ARE VOID"), Plural.of(table.superseded(), "vector"));
    }
    table.silence().ifPresent(this::print);
  }

  private void print(Silence silence) {
    String gap = Micros.text(silence.gapUs());
    String quiet = Micros.text(silence.quietUs());
    if (silence.asLong() > 0) {
      out.printf(
          "%s: a silence of %s is longer than the quiet window of %s (%s). A relay is slower than the"
              + " card file says, or more of them in a row move unseen: look at what moves %s, then see"
              + " to the relays' figures in the card file.%n",
          screen.bad("SETTLE TIMES OF THIS RUN ARE VOID"),
          gap,
          quiet,
          where(silence),
          silence.endedBy().map(SilencePrinter::name).orElse("the lines that moved there"));
    } else if (silence.narrow() > 0) {
      out.printf(
          "warning: a silence of %s came close to the quiet window of %s (%s); %s over 70 %% of it.%n",
          gap, quiet, where(silence), Plural.of(silence.narrow(), "vector"));
    } else {
      out.printf("longest silence %s, quiet window %s%n", gap, quiet);
    }
  }

  private static String where(Silence silence) {
    return "vector "
        + (silence.vector() + 1)
        + " at "
        + silence.origin()
        + silence.endedBy().map(line -> ", ended by " + name(line)).orElse("");
  }

  private static String name(LineName line) {
    String place = LineLabels.place(line);
    return line.label() + " (" + (place.isEmpty() ? "" : place + ", ") + line.pin() + ")";
  }
}
