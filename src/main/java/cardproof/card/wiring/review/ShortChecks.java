package cardproof.card.wiring.review;

import java.util.BitSet;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** Ways without a load: from the supply or a driven line to ground, and between driven lines. */
final class ShortChecks {
  private final Circuit circuit;
  private final List<EdgeLine> lines;
  private final WaySearch search;
  private final Words words;
  private final Findings findings;

  ShortChecks(
      Circuit circuit, List<EdgeLine> lines, WaySearch search, Words words, Findings findings) {
    this.circuit = circuit;
    this.lines = lines;
    this.search = search;
    this.words = words;
    this.findings = findings;
  }

  /** Whether wires and fuses alone join supply and ground, so that nothing else can be said. */
  static boolean solid(Circuit circuit, Words words, Findings findings) {
    if (circuit.supply() != circuit.ground()) {
      return false;
    }
    int supply = circuit.wiring().supply();
    int ground = circuit.wiring().ground();
    findings.add(
        Kind.SHORT,
        circuit.wiring().at(),
        "supply and ground are joined by wires and fuses alone: "
            + words.way(supply, new Way(circuit.supply(), List.of(), circuit.supply()), ground),
        "",
        "Take out the wire or fuse that is not meant");
    return true;
  }

  /** From here on the search goes through no resistor, which is a load here, however small. */
  void check() {
    grounded();
    for (int l = 0; l < circuit.links().size(); l++) {
      if (circuit.link(l).weak()) {
        search.leaveOut(l);
      }
    }
    BitSet supply = new BitSet();
    supply.set(circuit.supply());
    BitSet drives = new BitSet();
    driven().stream().filter(l -> !circuit.isRail(l)).forEach(drives::set);
    for (int l : circuit.at(circuit.ground())) {
      if (circuit.link(l).leaves(circuit.link(l).other(circuit.ground()))) {
        toGround(l, supply, drives);
      }
    }
    tied();
  }

  private BitSet driven() {
    BitSet nodes = new BitSet();
    for (int line = 0; line < lines.size(); line++) {
      if (lines.get(line).driven()) {
        nodes.set(circuit.lineNode(line));
      }
    }
    return nodes;
  }

  private void grounded() {
    for (int line = 0; line < lines.size(); line++) {
      if (lines.get(line).driven() && circuit.lineNode(line) == circuit.ground()) {
        int net = circuit.wiring().lineNets().get(line);
        findings.add(
            Kind.SHORT,
            lines.get(line).at(),
            "line "
                + lines.get(line).words()
                + " is ground: "
                + words.way(
                    net,
                    new Way(circuit.ground(), List.of(), circuit.ground()),
                    circuit.wiring().ground()),
            "",
            "Driving it is a short: take out the wire that joins them");
      }
    }
  }

  private void toGround(int link, BitSet supply, BitSet drives) {
    if (search.isLeftOut(link)) {
      return;
    }
    Optional<Way> way = search.wayThrough(link, circuit.ground(), supply);
    boolean gaveUp = search.gaveUp();
    if (way.isEmpty() && !drives.isEmpty()) {
      way = search.wayThrough(link, circuit.ground(), drives);
      gaveUp |= search.gaveUp();
    }
    if (way.isPresent()) {
      reportShort(link, way.get());
    } else if (gaveUp) {
      findings.add(
          Kind.NOT_SEARCHED,
          circuit.link(link).part().at(),
          "the search for a way from the supply through "
              + circuit.link(link).part().name()
              + " to ground was given up",
          "",
          "Look at it by hand: no short was found, but not all was looked at");
    }
  }

  private void reportShort(int link, Way way) {
    int from = circuit.netOf(way.from());
    String states = words.states(way);
    boolean bySupply = way.from() == circuit.supply();
    findings.add(
        Kind.SHORT,
        circuit.link(link).part().at(),
        (bySupply ? "supply" : "driven line " + words.net(from))
            + " and ground are joined with no load between"
            + (states.isEmpty() ? "" : ", with " + states)
            + ": "
            + words.way(from, way, circuit.wiring().ground()),
        "",
        "Put into this way the coil or lamp that was meant, or break it. Contacts of different"
            + " relays may be in any state for a moment");
  }

  private void tied() {
    Set<Set<Integer>> known = new HashSet<>();
    for (int line = 0; line < lines.size(); line++) {
      int node = circuit.lineNode(line);
      if (!lines.get(line).driven() || circuit.isRail(node)) {
        continue;
      }
      BitSet others = driven();
      others.clear(node);
      others.clear(circuit.supply());
      others.clear(circuit.ground());
      Optional<Way> way = others.isEmpty() ? Optional.empty() : search.way(node, others);
      if (way.isPresent() && known.add(Set.of(node, way.get().to()))) {
        reportTied(line, way.get());
      }
      sameNet(line);
    }
  }

  private void sameNet(int line) {
    for (int other = 0; other < line; other++) {
      if (lines.get(other).driven() && circuit.lineNode(other) == circuit.lineNode(line)) {
        reportTied(other, new Way(circuit.lineNode(line), List.of(), circuit.lineNode(line)), line);
        return;
      }
    }
  }

  private void reportTied(int line, Way way) {
    for (int other = 0; other < lines.size(); other++) {
      if (lines.get(other).driven() && circuit.lineNode(other) == way.to()) {
        reportTied(line, way, other);
        return;
      }
    }
  }

  private void reportTied(int line, Way way, int other) {
    String states = words.states(way);
    findings.add(
        Kind.TIED_LINES,
        lines.get(line).at(),
        "driven lines "
            + lines.get(line).words()
            + " and "
            + lines.get(other).words()
            + " are joined with no load between"
            + (states.isEmpty() ? "" : ", with " + states)
            + ": "
            + words.way(
                circuit.wiring().lineNets().get(line), way, circuit.wiring().lineNets().get(other)),
        "",
        "One drive then feeds what hangs on the other line; a diode in the way keeps them apart");
  }
}
