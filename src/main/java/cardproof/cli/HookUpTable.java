package cardproof.cli;

import cardproof.card.Line;
import cardproof.fixture.HookUp;
import java.io.PrintWriter;
import java.util.Locale;

/** Which channel of the fixture goes to which pin of the card. */
final class HookUpTable {
  private HookUpTable() {}

  static void print(HookUp hookUp, PrintWriter out) {
    out.println("hook-up");
    row(out, "drive", "watch", "pin", "line", "label");
    for (Line line : hookUp.card().lines()) {
      row(
          out,
          channel("D", hookUp.driveOf(line)),
          channel("W", hookUp.watchOf(line)),
          line.pin().toString(),
          line.name(),
          line.label().equals(line.name()) ? "" : line.label());
    }
  }

  private static void row(PrintWriter out, Object... cells) {
    out.println(String.format(Locale.ROOT, "  %-8s %-8s %-10s %-12s %s", cells));
  }

  private static String channel(String letter, int number) {
    return number == HookUp.NOTHING ? "-" : letter + number;
  }
}
