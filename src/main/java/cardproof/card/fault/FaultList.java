package cardproof.card.fault;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Fuse;
import cardproof.card.wiring.Lamp;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Pole;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Resistor;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wire;
import cardproof.card.wiring.Wiring;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * Every single fault that is likely on a card, made when asked for. The order is fixed: by kind,
 * most likely kind first; within a kind as the file has lines and parts.
 *
 * <p>Left out are: slow relays and whatever comes and goes, of which there is no end; ends of one
 * part without polarity exchanged, which changes nothing; contacts of which one end is not wired;
 * bridges between ends of one net, or from a common terminal to one of its own that is not wired.
 * Without wiring there are only lines, stuck or exchanged. Faults that make the same circuit are
 * listed each. Immutable.
 */
public final class FaultList {
  private final Card card;
  private final List<Part> parts;
  private final Neighbours neighbours;

  private FaultList(Card card) {
    this.card = card;
    this.parts = card.wiring().map(Wiring::parts).orElse(List.of());
    this.neighbours = new Neighbours(card);
  }

  public static FaultList of(Card card) {
    return new FaultList(card);
  }

  public Stream<Fault> all() {
    return Stream.of(FaultKind.values()).flatMap(this::of);
  }

  public Stream<Fault> of(FaultKind kind) {
    return switch (kind) {
      case JOINT_MISSING -> Stream.concat(partJoints(), lineJoints());
      case EXCHANGED -> Stream.concat(terminalsExchanged(), linesExchanged());
      case BRIDGED -> Stream.concat(terminalsBridged(), linesBridged());
      case NEVER_MAKES -> contacts().map(Contact::neverMakes);
      case WELDED -> contacts().map(Contact::welded);
      case DIODE_OPEN -> open(Diode.class, kind);
      case DIODE_SHORT -> named(Diode.class).map(DiodeShort::new);
      case DIODE_BACKWARDS -> named(Diode.class).map(DiodeBackwards::new);
      case COIL_OPEN -> named(Relay.class).map(CoilOpen::new);
      case LINE_STUCK ->
          card.lines().stream()
              .filter(this::switched)
              .flatMap(line -> Stream.of(new LineStuck(line, false), new LineStuck(line, true)));
      case NET_STUCK ->
          netsInside().flatMap(net -> Stream.of(new NetStuck(net, false), new NetStuck(net, true)));
      case LAMP_DEAD -> open(Lamp.class, kind);
      case FUSE_OPEN -> open(Fuse.class, kind);
      case RESISTOR_OPEN -> open(Resistor.class, kind);
      case WIRE_OPEN -> open(Wire.class, kind);
      case SLOW -> Stream.empty();
    };
  }

  /** How many there are of each kind; kinds without any are left out. */
  public Map<FaultKind, Long> counts() {
    Map<FaultKind, Long> counts = new EnumMap<>(FaultKind.class);
    for (FaultKind kind : FaultKind.values()) {
      long count = of(kind).count();
      if (count > 0) {
        counts.put(kind, count);
      }
    }
    return counts;
  }

  /** What was not looked at because the file does not say enough; nothing where it does. */
  public List<String> notConsidered() {
    List<String> all = new ArrayList<>();
    if (card.wiring().isEmpty()) {
      all.add("faults other than of lines: the card file has no wiring");
      return all;
    }
    if (!neighbours.placesKnown()) {
      all.add("where terminals lie on a relay: neighbours are taken by their numbers");
    }
    if (!neighbours.relaysPlaced()) {
      all.add("bridges beyond connectors and single relays: the card file has no positions");
    }
    return all;
  }

  private record Contact(String relay, int pole, Throw side) {
    Fault neverMakes() {
      return new ContactNeverMakes(relay, pole, side);
    }

    Fault welded() {
      return new ContactWelded(relay, pole, side);
    }
  }

  private Stream<Relay> relays() {
    return parts.stream().filter(Relay.class::isInstance).map(Relay.class::cast);
  }

  private Stream<String> named(Class<? extends Part> kind) {
    return parts.stream().filter(kind::isInstance).map(Part::name);
  }

  private Stream<Fault> open(Class<? extends Part> part, FaultKind kind) {
    return named(part).map(name -> new PartOpen(name, kind));
  }

  private Stream<Fault> partJoints() {
    return parts.stream()
        .flatMap(
            part ->
                part.terminals().stream()
                    .filter(Terminal::wired)
                    .map(one -> new JointMissing(new TerminalSite(part.name(), one.name()))));
  }

  private Stream<Fault> lineJoints() {
    return card.wiring().isEmpty()
        ? Stream.empty()
        : card.lines().stream().map(line -> new JointMissing(new LineSite(line)));
  }

  private Stream<Contact> contacts() {
    return relays()
        .flatMap(
            relay ->
                IntStream.rangeClosed(1, relay.poles().size())
                    .boxed()
                    .flatMap(p -> contacts(relay, p)));
  }

  private static Stream<Contact> contacts(Relay relay, int number) {
    Pole pole = relay.poles().get(number - 1);
    return Stream.of(Throw.NO, Throw.NC)
        .filter(side -> pole.com() != Terminal.NOT_WIRED)
        .filter(side -> (side == Throw.NO ? pole.no() : pole.nc()) != Terminal.NOT_WIRED)
        .map(side -> new Contact(relay.name(), number, side));
  }

  private Stream<Fault> terminalsBridged() {
    return neighbours
        .terminals()
        .filter(Neighbours.Pair::differ)
        .filter(pair -> !ownLoose(pair.first(), pair.second(), pair.secondNet()))
        .filter(pair -> !ownLoose(pair.second(), pair.first(), pair.firstNet()))
        .map(pair -> new Bridged(pair.first(), pair.second()));
  }

  /** A common terminal, and one of the two of its pole to which nothing is soldered. */
  private static boolean ownLoose(TerminalSite common, TerminalSite other, int otherNet) {
    return otherNet == Terminal.NOT_WIRED
        && common.part().equals(other.part())
        && common.terminal().startsWith("com")
        && other.terminal().substring(2).equals(common.terminal().substring(3));
  }

  private Stream<Fault> linesBridged() {
    return card.wiring().stream()
        .flatMap(
            wiring ->
                neighbours
                    .lines()
                    .filter(two -> net(wiring, two[0]) != net(wiring, two[1]))
                    .map(two -> new Bridged(new LineSite(two[0]), new LineSite(two[1]))));
  }

  private static int net(Wiring wiring, Line line) {
    return wiring.lineNets().get(line.index());
  }

  /** Normally open and normally closed ends of each pole, then all other neighbours. */
  private Stream<Fault> terminalsExchanged() {
    Set<Set<TerminalSite>> seen = new HashSet<>();
    Stream<Neighbours.Pair> poles = relays().flatMap(FaultList::throwsOf);
    return Stream.concat(poles, neighbours.terminals())
        .filter(Neighbours.Pair::differ)
        .filter(pair -> !coil(pair))
        .filter(pair -> seen.add(Set.of(pair.first(), pair.second())))
        .map(pair -> new TerminalsExchanged(pair.first(), pair.second()));
  }

  private static boolean coil(Neighbours.Pair pair) {
    return pair.first().part().equals(pair.second().part())
        && pair.first().terminal().startsWith("coil")
        && pair.second().terminal().startsWith("coil");
  }

  private static Stream<Neighbours.Pair> throwsOf(Relay relay) {
    return IntStream.rangeClosed(1, relay.poles().size())
        .mapToObj(
            p ->
                new Neighbours.Pair(
                    new TerminalSite(relay.name(), Throw.NO.terminal(p)),
                    relay.poles().get(p - 1).no(),
                    new TerminalSite(relay.name(), Throw.NC.terminal(p)),
                    relay.poles().get(p - 1).nc()));
  }

  private Stream<Fault> linesExchanged() {
    return neighbours
        .lines()
        .filter(two -> two[0].bus().role() == two[1].bus().role())
        .map(two -> new LinesExchanged(two[0], two[1]));
  }

  private boolean switched(Line line) {
    return card.wiring().map(wiring -> !isRail(wiring, net(wiring, line))).orElse(true);
  }

  private static boolean isRail(Wiring wiring, int net) {
    return net == wiring.supply() || net == wiring.ground();
  }

  /** Nets that are neither rails nor lines. */
  private Stream<String> netsInside() {
    return card.wiring().stream()
        .flatMap(
            wiring ->
                IntStream.range(0, wiring.nets().size())
                    .filter(net -> !isRail(wiring, net) && !wiring.lineNets().contains(net))
                    .mapToObj(net -> wiring.nets().get(net).name()));
  }
}
