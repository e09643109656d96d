package cardproof.card;

import cardproof.card.wiring.Wiring;
import cardproof.text.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * A design of which one or more units were built. Lines are numbered over all buses, in the card's
 * own order. Immutable.
 */
public final class Card {
  private final String name;
  private final String title;
  private final Supply supply;
  private final List<Bus> buses;
  private final Behaviour behaviour;
  private final Limits limits;
  private final RelayFigures relays;
  private final Wiring wiring;
  private final Position at;
  private final List<Line> lines;
  private final int[] firstLine;
  private final CardScope scope;

  /**
   * A card of which the wiring is not known.
   *
   * @param behaviour null where the card has none
   */
  public Card(
      String name,
      String title,
      Supply supply,
      List<Bus> buses,
      Behaviour behaviour,
      Limits limits,
      RelayFigures relays,
      Position at) {
    this(name, title, supply, buses, behaviour, limits, relays, null, at);
  }

  private Card(
      String name,
      String title,
      Supply supply,
      List<Bus> buses,
      Behaviour behaviour,
      Limits limits,
      RelayFigures relays,
      Wiring wiring,
      Position at) {
    this.name = name;
    this.title = title;
    this.supply = supply;
    this.buses = List.copyOf(buses);
    this.behaviour = behaviour;
    this.limits = limits;
    this.relays = relays;
    this.wiring = wiring;
    this.at = at;
    this.scope = behaviour == null ? new CardScope(this.buses) : behaviour.scope();
    this.firstLine = new int[buses.size()];
    List<Line> all = new ArrayList<>();
    for (int b = 0; b < buses.size(); b++) {
      firstLine[b] = all.size();
      for (int bit = 0; bit < buses.get(b).width(); bit++) {
        all.add(new Line(all.size(), buses.get(b), b, bit));
      }
    }
    this.lines = List.copyOf(all);
  }

  /**
   * The same card with what is soldered on it.
   *
   * @param soldered with one net for each line
   */
  public Card withWiring(Wiring soldered) {
    if (soldered.lineNets().size() != lines.size()) {
      throw new IllegalArgumentException(
          soldered.lineNets().size() + " nets for " + lines.size() + " lines of " + name);
    }
    return new Card(name, title, supply, buses, behaviour, limits, relays, soldered, at);
  }

  public String name() {
    return name;
  }

  public String title() {
    return title;
  }

  public Supply supply() {
    return supply;
  }

  public List<Bus> buses() {
    return buses;
  }

  public Optional<Behaviour> behaviour() {
    return Optional.ofNullable(behaviour);
  }

  public Limits limits() {
    return limits;
  }

  public RelayFigures relays() {
    return relays;
  }

  /** What is soldered, where the file says it. */
  public Optional<Wiring> wiring() {
    return Optional.ofNullable(wiring);
  }

  public Position at() {
    return at;
  }

  /** Names for expressions: the buses in order, then the states if there is a behaviour. */
  public CardScope scope() {
    return scope;
  }

  public boolean hasState() {
    return behaviour != null && !behaviour.states().isEmpty();
  }

  public List<Line> lines() {
    return lines;
  }

  /** Number of the bus's bit 0 among all lines. */
  public int firstLine(int busIndex) {
    return firstLine[busIndex];
  }

  /** Position of a bus in {@link #buses}, or -1. */
  public int busIndex(String busName) {
    return IntStream.range(0, buses.size())
        .filter(i -> buses.get(i).name().equals(busName))
        .findFirst()
        .orElse(-1);
  }

  /** The line that {@code S3} stands for where {@code S[3]} is meant, case aside. */
  public Optional<Line> lineWithoutBrackets(String written) {
    return lines.stream()
        .filter(line -> line.bus().width() > 1)
        .filter(line -> written.equalsIgnoreCase(line.bus().name() + line.bit()))
        .findFirst();
  }

  /** A line by its own name ({@code S[3]}, {@code CI}) or by its printed label. */
  public Optional<Line> line(String lineOrLabel) {
    String wanted = lineOrLabel.replace(" ", "");
    return lines.stream()
        .filter(line -> line.name().equals(wanted))
        .findFirst()
        .or(() -> lines.stream().filter(line -> line.label().equals(lineOrLabel)).findFirst());
  }
}
