package cardproof.files;

import cardproof.card.Bus;
import cardproof.card.Pin;
import cardproof.text.Nearest;
import cardproof.text.Position;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** From the rows of a netlist to parts, and from its connectors to lines. */
final class NetlistReader {
  private static final int LONGEST = 80;

  private final List<Bus> buses;
  private final Map<Pin, PowerNet> power;
  private final Kinds kinds;
  private final Problems problems;
  private final Set<String> connectors = new HashSet<>();
  private final Map<String, NetlistPart> parts = new LinkedHashMap<>();
  private final Map<Pin, CsvRow> pins = new HashMap<>();
  private final Set<String> unknown = new HashSet<>();

  /**
   * @param power supply and ground by their pins, as far as the card says those
   */
  NetlistReader(List<Bus> buses, Map<Pin, PowerNet> power, Kinds kinds, Problems problems) {
    this.buses = buses;
    this.power = power;
    this.kinds = kinds;
    this.problems = problems;
    buses.forEach(bus -> bus.pins().forEach(pin -> connectors.add(pin.connector())));
    power.keySet().forEach(pin -> connectors.add(pin.connector()));
  }

  /**
   * Reads a netlist and makes its parts.
   *
   * @return names of the nets that the lines are, by line index
   */
  List<String> read(Path file, Node.Text at, Assembly assembly) {
    for (CsvRow row : new CsvReader(problems).read(file)) {
      if (fits(row, "reference", row.reference()) && fits(row, "pin", row.pin())) {
        take(row);
        if (!fits(row, "net", row.net()) && parts.containsKey(row.reference())) {
          parts.get(row.reference()).spoil();
        }
      }
    }
    kinds.warnOfUnused(problems);
    if (parts.size() > PartBudget.MOST_PARTS) {
      problems.error(
          at.at(), "the netlist has " + parts.size() + " parts", "at most 20,000 parts", "");
      return List.of();
    }
    parts.values().forEach(part -> part.make(assembly, problems));
    power.forEach(this::checkPower);
    return lineNets(file, at.at(), assembly);
  }

  private boolean fits(CsvRow row, String column, String value) {
    boolean good =
        value.length() <= LONGEST
            && value.codePoints().noneMatch(c -> c <= ' ' || Character.isISOControl(c));
    if (!good) {
      problems.error(
          row.at(),
          Node.Text.quote(value) + " cannot be the name of a " + column,
          "at most " + LONGEST + " signs, no blanks among them",
          "");
    }
    return good;
  }

  private void take(CsvRow row) {
    String reference = row.reference();
    if (connectors.contains(reference)) {
      connector(row);
      return;
    }
    NetlistPart part = parts.get(reference);
    if (part != null) {
      part.take(row, problems);
      return;
    }
    Optional<NetKind> kind = kinds.of(reference);
    if (kind.isPresent()) {
      NetlistPart fresh = new NetlistPart(reference, kind.get(), row.at());
      parts.put(reference, fresh);
      fresh.take(row, problems);
    } else if (!kinds.fit(reference) && unknown.add(reference)) {
      problems.error(
          row.at(),
          "nothing says what reference " + Node.Text.quote(reference) + " is",
          "an entry of 'kinds' that fits it, such as " + reference + ": {relay: PT-4-12V}",
          Nearest.hint(reference, kinds.patterns()));
    }
  }

  private void connector(CsvRow row) {
    if (!row.pin().matches("\\d{1,4}")) {
      return;
    }
    Pin pin = new Pin(row.reference(), Integer.parseInt(row.pin()));
    CsvRow first = pins.putIfAbsent(pin, row);
    if (first != null) {
      problems.error(
          row.at(),
          "pin " + pin + " a second time; the first is in line " + first.at().line(),
          "every pin once",
          "");
    }
  }

  private void checkPower(Pin pin, PowerNet net) {
    CsvRow row = pins.get(pin);
    if (row != null && !row.net().equals(net.net().text())) {
      problems.error(
          row.at(),
          "pin " + pin + " is on net " + Node.Text.quote(row.net()),
          "net '" + net.net().text() + "', which the card says has this pin",
          "");
    }
  }

  /** A line of which the pin is not in the netlist is the net of its own name, if there is one. */
  private List<String> lineNets(Path file, Position at, Assembly assembly) {
    List<String> nets = new ArrayList<>();
    List<String> without = new ArrayList<>();
    for (Bus bus : buses) {
      for (int bit = 0; bit < bus.width(); bit++) {
        CsvRow row = pins.get(bus.pins().get(bit));
        boolean tied = row != null && !row.net().isEmpty();
        String net = tied ? row.net() : bus.lineName(bit);
        assembly.net(net, tied ? row.at() : bus.at());
        nets.add(net);
        if (!tied) {
          without.add(bus.pins().get(bit) + " (" + bus.lineName(bit) + ")");
        }
      }
    }
    if (!without.isEmpty()) {
      problems.warn(
          at,
          "pins that are on no net of '" + file.getFileName() + "': " + shown(without),
          "",
          "Such a line is the net of its own name, if anything is on it");
    }
    return nets;
  }

  private static String shown(List<String> names) {
    int shown = 6;
    return String.join(", ", names.subList(0, Math.min(shown, names.size())))
        + (names.size() > shown ? " and " + (names.size() - shown) + " more" : "");
  }
}
