package cardproof.cli;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.card.wiring.Wiring;
import cardproof.card.wiring.meter.PrePower;
import cardproof.card.wiring.meter.Reading;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;

/** What to meter on a card before it has ever had power, to be printed and filled in. */
final class MeterSheet {
  private MeterSheet() {}

  static List<Reading> readings(Card card, Wiring wiring) {
    return PrePower.of(
        wiring,
        card.lines().stream().map(Line::name).toList(),
        card.lines().stream().map(line -> line.pin().toString()).toList(),
        card.supply().millivolts());
  }

  static void print(Card card, Wiring wiring, PrintWriter out) {
    String volts = volts(card.supply().millivolts() / 1e3);
    out.println("before first power: card " + card.name() + ", " + card.title());
    out.println("  No supply, no fixture, no cable on the card; every relay rests.");
    out.println("  ohms: on a meter's ohm range, either way round.");
    out.println(
        "  fed: volts between the leads of a supply at "
            + volts
            + " with 1 kohm in its plus lead, plus on the pin; fed back: the leads exchanged.");
    out.println("  A cold filament lamp shows a tenth of its ohms; the figures are for warm ones.");
    out.println();
    row(out, "pin", "line", "to", "ohms", "fed", "fed back", "ohms", "fed", "back");
    for (Reading reading : readings(card, wiring)) {
      row(
          out,
          reading.pin(),
          reading.line(),
          reading.rail(),
          ohms(reading.ohms()),
          volts(reading.forwardVolts()),
          volts(reading.reverseVolts()),
          "____",
          "____",
          "____");
    }
  }

  /** As RFC 4180 has it; ohms are empty where nothing joins the two. */
  static void csv(Card card, Wiring wiring, PrintWriter out) {
    out.print("pin,line,to,ohms,fed volts,fed back volts,ohms read,fed read,fed back read\r\n");
    for (Reading reading : readings(card, wiring)) {
      String ohms =
          Double.isInfinite(reading.ohms())
              ? ""
              : String.format(Locale.ROOT, "%.1f", reading.ohms());
      out.print(
          String.format(
              Locale.ROOT,
              "%s,%s,%s,%s,%.2f,%.2f,,,\r\n",
              reading.pin(),
              reading.line(),
              reading.rail(),
              ohms,
              reading.forwardVolts(),
              reading.reverseVolts()));
    }
  }

  private static void row(PrintWriter out, Object... cells) {
    out.println(
        String.format(Locale.ROOT, "  %-8s %-10s %-8s %10s %8s %8s   %5s %5s %5s", cells)
            .stripTrailing());
  }

  private static String ohms(double ohms) {
    if (Double.isInfinite(ohms)) {
      return "open";
    }
    return ohms < 1_000
        ? String.format(Locale.ROOT, "%.0f", ohms)
        : String.format(Locale.ROOT, "%.2f k", ohms / 1e3);
  }

  private static String volts(double volts) {
    return String.format(Locale.ROOT, "%.1f V", volts);
  }
}
