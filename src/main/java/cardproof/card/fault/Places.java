package cardproof.card.fault;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wiring;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Finds what a name on a card stands for. In this order: a line, the pin of a line ({@code J2.7}),
 * a part, a terminal of a part, what is printed beside a line, a net. A net of which the name means
 * something else is reached through the word {@code net}.
 */
final class Places {
  private final Card card;
  private final Optional<Wiring> wiring;

  Places(Card card) {
    this.card = card;
    this.wiring = card.wiring();
  }

  Card card() {
    return card;
  }

  boolean wired() {
    return wiring.isPresent();
  }

  Optional<Site> find(String written) {
    if (written.toLowerCase(Locale.ROOT).startsWith(NetSite.NET)) {
      return net(unspaced(written.substring(NetSite.NET.length())));
    }
    String name = unspaced(written);
    return line(name)
        .or(() -> pin(name))
        .or(() -> part(name).map(part -> new PartSite(part.name())))
        .or(() -> terminal(name))
        .or(() -> card.line(written).map(LineSite::new))
        .or(() -> net(name));
  }

  private Optional<Site> line(String name) {
    return card.lines().stream()
        .filter(line -> line.name().equals(name))
        .findFirst()
        .map(LineSite::new);
  }

  private Optional<Site> pin(String name) {
    return card.lines().stream()
        .filter(line -> line.pin().toString().equalsIgnoreCase(name))
        .findFirst()
        .map(LineSite::new);
  }

  private Optional<Site> terminal(String name) {
    int dot = name.lastIndexOf('.');
    return dot < 0
        ? Optional.empty()
        : part(name.substring(0, dot)).flatMap(part -> terminal(part, name.substring(dot + 1)));
  }

  private Optional<Site> terminal(Part part, String written) {
    return TerminalNames.index(part, written)
        .map(t -> new TerminalSite(part.name(), part.terminals().get(t).name()));
  }

  /** A net by its name; where it is a line's own net, the line. */
  private Optional<Site> net(String name) {
    Optional<Site> line = line(name);
    return line.isPresent()
        ? line
        : wiring.filter(all -> all.net(name) >= 0).map(all -> new NetSite(name));
  }

  Optional<Part> part(String name) {
    return wiring.flatMap(all -> all.part(name));
  }

  /** The part that {@code K3.no9} would be on, if its last name were right. */
  Optional<Part> partOf(String terminal) {
    String name = unspaced(terminal);
    int dot = name.lastIndexOf('.');
    return dot < 0 ? Optional.empty() : part(name.substring(0, dot));
  }

  /** Number of the net at a place, or {@link Terminal#NOT_WIRED}. Never asked of a part. */
  int netAt(Site site) {
    Wiring all = wiring.orElseThrow();
    if (site instanceof LineSite one) {
      return all.lineNets().get(one.line().index());
    }
    if (site instanceof TerminalSite one) {
      Part part = part(one.part()).orElseThrow();
      return part.terminals().get(TerminalNames.index(part, one.terminal()).orElseThrow()).net();
    }
    return all.net(((NetSite) site).net());
  }

  String netName(int net) {
    return wiring.orElseThrow().nets().get(net).name();
  }

  boolean isRail(int net) {
    return net == wiring.orElseThrow().supply() || net == wiring.orElseThrow().ground();
  }

  List<String> lines() {
    return card.lines().stream().map(Line::name).toList();
  }

  List<String> nets() {
    return wiring.map(all -> all.nets().stream().map(net -> net.name()).toList()).orElse(List.of());
  }

  /** Names of all parts of a class. */
  List<String> parts(Class<? extends Part> kind) {
    return wiring
        .map(all -> all.parts().stream().filter(kind::isInstance).map(Part::name).toList())
        .orElse(List.of());
  }

  /** Everything with a name of its own, for what may stand near a mistyped one. */
  List<String> all() {
    List<String> names = new ArrayList<>(lines());
    names.addAll(parts(Part.class));
    nets().stream().filter(net -> !names.contains(net)).forEach(names::add);
    return names;
  }

  List<String> contacts(Relay relay) {
    return relay.terminals().stream()
        .map(Terminal::name)
        .filter(name -> name.startsWith("n"))
        .map(name -> relay.name() + "." + name)
        .toList();
  }

  private static String unspaced(String written) {
    return written.replace(" ", "");
  }
}
