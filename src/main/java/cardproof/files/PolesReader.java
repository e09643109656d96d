package cardproof.files;

import cardproof.card.wiring.RelayType;
import cardproof.text.Position;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * The poles of a relay: a list of maps, the first one for pole 1 and so on. With a number in its
 * keys ({@code com2}, or {@code 21 22 24} as printed on the socket) a map is for that pole.
 */
final class PolesReader {
  private static final String EXAMPLE = "- {com: +12V, no: a1, nc: a0}";

  /** Without a number; those with one stand beside them. */
  static final List<String> KEYS = List.of("com", "no", "nc");

  private final Optional<RelayType> type;
  private final int most;
  private final List<String> repeats;
  private final Problems problems;
  private final NetReader nets;
  private final Map<Integer, PoleText> poles = new HashMap<>();
  private final Map<Integer, Position> places = new HashMap<>();
  private boolean good = true;

  PolesReader(Optional<RelayType> type, List<String> repeats, Problems problems) {
    this.type = type;
    this.most = type.map(RelayType::poles).orElse(RelayType.MOST_POLES);
    this.repeats = repeats;
    this.problems = problems;
    this.nets = new NetReader(problems);
  }

  /** As many as the type has; empty, with problems said, where they cannot be. */
  Optional<List<PoleText>> read(Node node) {
    if (!(node instanceof Node.Listing list)) {
      return refuse(
          node.at(), node.saidOf("poles"), "a list with an entry for each pole, " + EXAMPLE, "");
    }
    if (list.items().size() > most) {
      return refuse(
          list.items().get(most).at(),
          list.items().size()
              + " poles"
              + type.map(t -> ", and " + t.name() + " has " + most).orElse(""),
          "at most " + most,
          "");
    }
    for (int p = 0; p < list.items().size(); p++) {
      pole(list.items().get(p), p + 1);
    }
    return good
        ? Optional.of(
            IntStream.rangeClosed(1, most)
                .mapToObj(p -> poles.getOrDefault(p, PoleText.UNUSED))
                .toList())
        : Optional.empty();
  }

  private void pole(Node node, int inTurn) {
    if (!(node instanceof Node.Mapping map) || map.entries().isEmpty()) {
      refuse(
          node.at(),
          node instanceof Node.Mapping
              ? "an empty pole"
              : node.described() + " stands where a pole is",
          "a map with com, no and nc as far as they are wired",
          "Write " + EXAMPLE);
      return;
    }
    Map<String, IndexText> wired = new HashMap<>();
    Set<Integer> numbers = new HashSet<>();
    for (Node.Entry entry : map.entries()) {
      Optional<IndexText> net = nets.net(entry.value(), entry.key().text(), repeats);
      good &= net.isPresent();
      Optional<String> terminal = terminal(entry.key(), inTurn);
      if (terminal.isEmpty()) {
        good = false;
        continue;
      }
      String role = terminal.get().replaceAll("\\d", "");
      numbers.add(Integer.parseInt(terminal.get().substring(role.length())));
      if (net.isPresent() && wired.put(role, net.get()) != null) {
        refuse(
            entry.key().at(), "terminal " + terminal.get() + " twice", "every terminal once", "");
      }
    }
    if (numbers.size() > 1) {
      refuse(map.at(), "terminals of two poles in one entry", "an entry for each pole", "");
    } else {
      numbers.forEach(number -> put(number, map.at(), wired));
    }
  }

  private Optional<String> terminal(Node.Text key, int inTurn) {
    String written = key.text().strip().toLowerCase(Locale.ROOT);
    String full = KEYS.contains(written) ? written + inTurn : written;
    Optional<String> terminal =
        TerminalNames.ofRelay(full, most).filter(name -> !name.startsWith("coil"));
    if (terminal.isEmpty()) {
      RelayTerminals.unknownOfPole(key, type, problems);
    }
    return terminal;
  }

  private void put(int number, Position at, Map<String, IndexText> wired) {
    Position first = places.putIfAbsent(number, at);
    if (first != null) {
      refuse(
          at,
          "pole " + number + " a second time; the first is in line " + first.line(),
          "every pole once",
          "");
    }
    poles.put(
        number,
        new PoleText(
            Optional.ofNullable(wired.get("com")),
            Optional.ofNullable(wired.get("no")),
            Optional.ofNullable(wired.get("nc"))));
  }

  private <T> Optional<T> refuse(Position at, String found, String wanted, String next) {
    good = false;
    problems.error(at, found, wanted, next);
    return Optional.empty();
  }
}
