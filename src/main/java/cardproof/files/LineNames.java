package cardproof.files;

import cardproof.card.Bus;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;

/** The nets that are lines of the card. */
final class LineNames {
  private final Map<String, Bus> buses = new HashMap<>();
  private final List<String> names;

  LineNames(List<Bus> buses) {
    buses.forEach(bus -> this.buses.put(bus.name(), bus));
    this.names =
        buses.stream()
            .flatMap(bus -> IntStream.range(0, bus.width()).mapToObj(bus::lineName))
            .toList();
  }

  /** By line index. */
  List<String> names() {
    return names;
  }

  /** Whether it is a bus of several lines, which is no net itself. */
  boolean isBus(String name) {
    return buses.containsKey(name) && buses.get(name).width() > 1;
  }

  /** Why a name cannot be a net though it begins like a line; empty where it can. */
  Optional<String> refusal(String net) {
    int open = net.indexOf('[');
    Bus bus = buses.get(open < 0 ? net : net.substring(0, open));
    if (bus == null) {
      return Optional.empty();
    }
    if (bus.width() == 1) {
      return open < 0
          ? Optional.empty()
          : Optional.of("'" + bus.name() + "' is a single line, which has no index");
    }
    if (open < 0) {
      return Optional.of(
          "'" + net + "' is a bus of " + bus.width() + " lines, " + range(bus) + ", and no net");
    }
    String index = net.substring(open + 1, net.length() - 1);
    boolean there = index.matches("\\d{1,6}") && Integer.parseInt(index) < bus.width();
    return there
        ? Optional.empty()
        : Optional.of("there is no line " + net + ": bus '" + bus.name() + "' has " + range(bus));
  }

  private static String range(Bus bus) {
    return bus.lineName(0) + " to " + bus.lineName(bus.width() - 1);
  }
}
