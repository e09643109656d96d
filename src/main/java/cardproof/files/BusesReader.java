package cardproof.files;

import cardproof.card.Bus;
import cardproof.card.Pin;
import cardproof.card.Role;
import cardproof.card.Sharing;
import cardproof.text.Position;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.IntStream;

/**
 * The buses of a card. A bus of which something is wrong still comes out, with pins made up where
 * need be, so that what names it elsewhere is not refused as well.
 */
final class BusesReader {
  private record Use(String line, Position at) {}

  private static final long MOST_MILLIAMPS = 100_000;

  private final Problems problems;
  private final CardNames names;
  private final Numbers numbers;
  private final List<Bus> buses = new ArrayList<>();
  private final Map<String, Long> settleUs = new HashMap<>();
  private final Map<Pin, Use> pins = new HashMap<>();
  private boolean complete = true;

  BusesReader(CardNames names, Problems problems) {
    this.problems = problems;
    this.names = names;
    this.numbers = new Numbers(problems);
  }

  List<Bus> buses() {
    return List.copyOf(buses);
  }

  /** Whether every bus is there that the card meant to have. */
  boolean complete() {
    return complete;
  }

  /** Limits of their own, by bus name. */
  Map<String, Long> settleUs() {
    return Map.copyOf(settleUs);
  }

  void read(Node section, String key, Role role) {
    if (!(section instanceof Node.Mapping map)) {
      problems.error(
          section.at(),
          section.saidOf(key),
          "a map of buses, such as A: {width: 12, at: J1.1-12}",
          "");
      complete = false;
      return;
    }
    for (Node.Entry entry : map.entries()) {
      if (names.claim(entry.key(), "a bus")) {
        bus(entry, role);
      } else {
        complete = false;
      }
    }
  }

  static List<String> keys(Role role) {
    return switch (role) {
      case INPUT -> List.of("width", "at", "labels");
      case OUTPUT -> List.of("width", "at", "labels", "settle", "rack-load");
      case SHARED -> List.of("width", "at", "labels", "settle", "rack-load", "sharing");
    };
  }

  private void bus(Node.Entry entry, Role role) {
    String name = entry.key().text();
    Position at = entry.key().at();
    Optional<Fields> fields = Fields.of(entry.value(), "bus '" + name + "'", keys(role), problems);
    Optional<List<Pin>> given =
        fields
            .flatMap(f -> f.require("at", "the pins it leaves the card by, such as at: J1.1-12"))
            .flatMap(new PinReader(problems)::read);
    OptionalLong declared = fields.map(this::width).orElse(OptionalLong.empty());
    int width = (int) declared.orElse(given.map(List::size).orElse(1));
    if (given.isPresent() && given.get().size() != width) {
      problems.error(
          fields.orElseThrow().get("width").orElseThrow().at(),
          "bus '" + name + "' is " + width + " wide and 'at' names " + given.get().size() + " pins",
          "as many pins as lines",
          "Correct one of them; 'width' may be left out");
    }
    List<Pin> lines = given.filter(p -> p.size() == width).orElseGet(() -> madeUp(width));
    List<String> labels =
        fields
            .flatMap(f -> f.get("labels"))
            .map(n -> names.labels(n, name, width))
            .orElse(List.of());
    Sharing sharing =
        fields.flatMap(f -> f.get("sharing")).map(this::sharing).orElse(Sharing.WIRED_OR);
    long rackMilliamps =
        fields.flatMap(f -> f.get("rack-load")).map(this::rackMilliamps).orElse(0L);
    Bus bus = new Bus(name, role, width, lines, labels, sharing, rackMilliamps, at);
    if (given.isPresent() && lines == given.get()) {
      occupy(bus, fields.orElseThrow().get("at").orElseThrow());
    }
    fields.flatMap(f -> f.get("settle")).ifPresent(node -> settle(name, node));
    buses.add(bus);
  }

  private OptionalLong width(Fields fields) {
    return fields
        .get("width")
        .map(node -> numbers.count(node, "width", 1, Bus.WIDEST))
        .orElse(OptionalLong.empty());
  }

  private static List<Pin> madeUp(int width) {
    return IntStream.rangeClosed(1, width).mapToObj(i -> new Pin("?", i)).toList();
  }

  private Sharing sharing(Node node) {
    String wanted = "wired-or (the lines carry the OR of all drivers) or exclusive (one at a time)";
    String word = new Texts(problems).text(node, "sharing", wanted).map(Node.Text::text).orElse("");
    switch (word) {
      case "wired-or":
      case "":
        return Sharing.WIRED_OR;
      case "exclusive":
        return Sharing.EXCLUSIVE;
      default:
        problems.error(node.at(), node.saidOf("sharing"), wanted, "");
        return Sharing.WIRED_OR;
    }
  }

  private long rackMilliamps(Node node) {
    return Quantity.CURRENT.read(node, "rack-load", 1, MOST_MILLIAMPS, problems).orElse(0L);
  }

  private void settle(String name, Node node) {
    Quantity.TIME
        .read(node, "settle", 1, LimitsReader.LONGEST_SETTLE_US, problems)
        .ifPresent(us -> settleUs.put(name, us));
  }

  /** Puts the bus on its pins; one message tells of all that were taken. */
  private void occupy(Bus bus, Node at) {
    int taken = 0;
    Pin first = null;
    for (int bit = 0; bit < bus.width(); bit++) {
      Pin pin = bus.pins().get(bit);
      if (pins.putIfAbsent(pin, new Use(bus.lineName(bit), at.at())) != null) {
        taken++;
        first = first == null ? pin : first;
      }
    }
    if (first != null) {
      Use other = pins.get(first);
      problems.error(
          at.at(),
          "pin "
              + first
              + " already belongs to "
              + other.line()
              + " in line "
              + other.at().line()
              + (taken > 1 ? ", and " + taken + " of these pins are taken" : ""),
          "one line on each pin",
          "");
    }
  }
}
