package cardproof.card.fault;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.card.wiring.Pole;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Spot;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wiring;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * What lies side by side, where solder runs over and wires get mixed up.
 *
 * <ul>
 *   <li>Pins i and i+1 of a connector, which are also wires i and i+1 of a ribbon cable.
 *   <li>Terminals of a relay: by their places, where the relay's type has them; else in the order
 *       of their markings (EN 50005: 11 12 14 21 22 24 ...), and the two ends of the coil.
 *   <li>Terminals of relays next to each other, where the file says where both relays sit.
 * </ul>
 *
 * <p>Of places known, two are neighbours if they are at most {@link #REACH_MM} apart and no third
 * lies in the circle that has them as its diameter (the graph of Gabriel and Sokal, 1969): along
 * rows and columns of a socket, not across. Terminals of a pole of which nothing is wired are left
 * out.
 */
final class Neighbours {
  /** How far solder is taken to run; judgement: just over the 7.5 mm pitch of common sockets. */
  static final double REACH_MM = 8;

  /** Two terminals side by side. */
  record Pair(TerminalSite first, int firstNet, TerminalSite second, int secondNet) {
    boolean differ() {
      return firstNet != secondNet;
    }
  }

  private record Point(TerminalSite site, int net, Spot spot) {
    double squared(Point other) {
      double x = spot.xMm() - other.spot.xMm();
      double y = spot.yMm() - other.spot.yMm();
      return x * x + y * y;
    }
  }

  private final Card card;
  private final List<Relay> relays;

  Neighbours(Card card) {
    this.card = card;
    this.relays = card.wiring().map(Wiring::relays).orElse(List.of());
  }

  /** Whether places are known of any terminals. */
  boolean placesKnown() {
    return relays.stream().anyMatch(relay -> !relay.type().terminals().isEmpty());
  }

  /** Whether any two relays have places on the card. */
  boolean relaysPlaced() {
    return relays.stream().filter(Neighbours::placed).limit(2).count() == 2;
  }

  /** Lines at pins i and i+1, in the order of the card's lines. */
  Stream<Line[]> lines() {
    return card.lines().stream()
        .flatMap(
            line ->
                card.lines().stream()
                    .filter(other -> next(line, other))
                    .map(other -> new Line[] {line, other}));
  }

  private static boolean next(Line line, Line other) {
    return line.pin().connector().equals(other.pin().connector())
        && line.pin().number() + 1 == other.pin().number();
  }

  /** Terminals side by side, those of one relay after those of the one before. */
  Stream<Pair> terminals() {
    return Stream.concat(relays.stream().flatMap(this::within), between());
  }

  private Stream<Pair> within(Relay relay) {
    if (relay.type().terminals().isEmpty()) {
      return numbered(relay);
    }
    return near(points(relay, new Spot(0, 0)));
  }

  private static Stream<Pair> numbered(Relay relay) {
    List<Terminal> all = relay.terminals();
    List<Integer> order = new ArrayList<>();
    for (int p = 0; p < relay.poles().size(); p++) {
      if (used(relay.poles().get(p))) {
        int com = Relay.COIL_TERMINALS + Relay.POLE_TERMINALS * p;
        // com, nc, no: 11 12 14
        order.addAll(List.of(com, com + 2, com + 1));
      }
    }
    return Stream.concat(
        Stream.of(pair(relay, all.get(0), all.get(1))),
        IntStream.range(1, order.size())
            .mapToObj(i -> pair(relay, all.get(order.get(i - 1)), all.get(order.get(i)))));
  }

  private static Pair pair(Relay relay, Terminal first, Terminal second) {
    return new Pair(
        new TerminalSite(relay.name(), first.name()),
        first.net(),
        new TerminalSite(relay.name(), second.name()),
        second.net());
  }

  private static boolean used(Pole pole) {
    return pole.com() != Terminal.NOT_WIRED
        || pole.no() != Terminal.NOT_WIRED
        || pole.nc() != Terminal.NOT_WIRED;
  }

  private static boolean placed(Relay relay) {
    return relay.spot().isPresent() && !relay.type().terminals().isEmpty();
  }

  private Stream<Pair> between() {
    List<Point> all =
        relays.stream()
            .filter(Neighbours::placed)
            .flatMap(relay -> points(relay, relay.spot().orElseThrow()).stream())
            .toList();
    return near(all).filter(pair -> !pair.first().part().equals(pair.second().part()));
  }

  /** The terminals of which the places are known, those of unused poles left out. */
  private static List<Point> points(Relay relay, Spot corner) {
    List<Point> points = new ArrayList<>();
    for (int t = 0; t < relay.terminals().size(); t++) {
      Terminal terminal = relay.terminals().get(t);
      int pole = (t - Relay.COIL_TERMINALS) / Relay.POLE_TERMINALS;
      boolean used = t < Relay.COIL_TERMINALS || used(relay.poles().get(pole));
      Optional.ofNullable(relay.type().terminals().get(terminal.name()))
          .filter(spot -> used)
          .map(spot -> new Spot(corner.xMm() + spot.xMm(), corner.yMm() + spot.yMm()))
          .map(
              spot ->
                  new Point(new TerminalSite(relay.name(), terminal.name()), terminal.net(), spot))
          .ifPresent(points::add);
    }
    return points;
  }

  private static Stream<Pair> near(List<Point> points) {
    return IntStream.range(0, points.size())
        .boxed()
        .flatMap(
            i ->
                points.stream()
                    .skip(i + 1L)
                    .filter(other -> side(points.get(i), other, points))
                    .map(other -> pair(points.get(i), other)));
  }

  private static Pair pair(Point one, Point other) {
    return new Pair(one.site(), one.net(), other.site(), other.net());
  }

  private static boolean side(Point one, Point other, List<Point> points) {
    double apart = one.squared(other);
    return apart <= REACH_MM * REACH_MM
        && points.stream()
            .filter(third -> third != one && third != other)
            .noneMatch(third -> one.squared(third) + third.squared(other) <= apart);
  }
}
