package cardproof.files;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wiring;
import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;

/**
 * Writes the wiring of a card as a flat netlist: comma-separated values as RFC 4180 has them, with
 * the columns reference, pin and net, connectors first. Blocks and repeats are spelled out; places
 * and the tags of sockets are left behind.
 */
public final class NetlistFile {
  private NetlistFile() {}

  /**
   * Writes a file anew, or over one that is there.
   *
   * @param card with wiring
   */
  public static void write(Card card, Path file) throws IOException {
    try (Writer out = Files.newBufferedWriter(file, StandardCharsets.UTF_8)) {
      write(card, out);
    }
  }

  /**
   * @param card with wiring
   */
  public static void write(Card card, Appendable out) throws IOException {
    Wiring wiring = wiringOf(card);
    CSVPrinter rows = new CSVPrinter(out, CSVFormat.RFC4180);
    rows.printRecord(CsvReader.COLUMNS);
    for (Line line : card.lines()) {
      int net = wiring.lineNets().get(line.index());
      pin(rows, line.pin().toString(), wiring.nets().get(net).name());
    }
    List<Map.Entry<Integer, String>> power =
        wiring.powerPins().entrySet().stream().sorted(Map.Entry.comparingByValue()).toList();
    for (Map.Entry<Integer, String> one : power) {
      pin(rows, one.getValue(), wiring.nets().get(one.getKey()).name());
    }
    for (Part part : wiring.parts()) {
      for (Terminal terminal : part.terminals()) {
        if (terminal.wired()) {
          rows.printRecord(part.name(), terminal.name(), wiring.nets().get(terminal.net()).name());
        }
      }
    }
  }

  private static void pin(CSVPrinter rows, String pin, String net) throws IOException {
    int dot = pin.lastIndexOf('.');
    rows.printRecord(pin.substring(0, dot), pin.substring(dot + 1), net);
  }

  /**
   * What a card's file says in place of its parts, for a netlist that was written here: the whole
   * of {@code wiring:}, kinds of the references included.
   *
   * @param card with wiring
   * @param relayTypes name of the file of relay types, as the card's file is to have it
   * @param netlist name of the netlist, the same
   */
  public static String wiringText(Card card, String relayTypes, String netlist) {
    return new NetlistText(wiringOf(card)).text(relayTypes, netlist);
  }

  private static Wiring wiringOf(Card card) {
    return card.wiring()
        .orElseThrow(() -> new IllegalArgumentException("card " + card.name() + " has no wiring"));
  }
}
