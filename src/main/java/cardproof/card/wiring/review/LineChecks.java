package cardproof.card.wiring.review;

import cardproof.card.wiring.Part;
import cardproof.card.wiring.Terminal;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Deque;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/** Whether each line does anything, and what a drive on it has to feed. */
final class LineChecks {
  private static final int MOST_PARTS_NAMED = 4;

  private final Circuit circuit;
  private final List<EdgeLine> lines;
  private final Ends ends;
  private final WaySearch search;
  private final ReviewSettings settings;
  private final Findings findings;

  LineChecks(
      Circuit circuit,
      List<EdgeLine> lines,
      Ends ends,
      WaySearch search,
      ReviewSettings settings,
      Findings findings) {
    this.circuit = circuit;
    this.lines = lines;
    this.ends = ends;
    this.search = search;
    this.settings = settings;
    this.findings = findings;
  }

  /**
   * @return loads of the driven lines, in order
   */
  List<LineLoad> check() {
    List<LineLoad> loads = new ArrayList<>();
    BitSet wired = wiredNets();
    for (int line = 0; line < lines.size(); line++) {
      EdgeLine edge = lines.get(line);
      if (!wired.get(circuit.wiring().lineNets().get(line))) {
        continue;
      }
      if (edge.driven()) {
        LineLoad load = load(line);
        loads.add(load);
        drive(line, load);
      } else if (edge.watched() && !canBeLit(line)) {
        findings.add(
            Kind.NEVER_LIT,
            edge.at(),
            "nothing can light output " + edge.words(),
            "a way to it from the supply or a driven line that no relay forbids",
            "Follow its net back to the contact that should feed it");
      }
    }
    return loads;
  }

  private BitSet wiredNets() {
    BitSet wired = new BitSet();
    for (Part part : circuit.wiring().parts()) {
      part.terminals().stream()
          .filter(Terminal::wired)
          .forEach(terminal -> wired.set(terminal.net()));
    }
    return wired;
  }

  private void drive(int line, LineLoad load) {
    EdgeLine edge = lines.get(line);
    if (!reachesSomething(line)) {
      findings.add(
          Kind.NO_LOAD,
          edge.at(),
          "line " + edge.words() + " reaches no coil, lamp, resistor or watched line",
          "",
          "Driving it changes nothing: follow its net to what it should feed");
    }
    if (settings.driveMilliamps() > 0 && load.milliamps() > settings.driveMilliamps()) {
      findings.add(
          Kind.OVERLOADED_DRIVE,
          edge.at(),
          String.format(
              Locale.ROOT,
              "line %s feeds %s directly, %.0f mA, and a drive gives %d mA",
              edge.words(),
              Words.listed(load.parts(), MOST_PARTS_NAMED),
              load.milliamps(),
              settings.driveMilliamps()),
          "",
          "Use a fixture with stronger drives, or let a relay of the card switch the load");
    }
  }

  private boolean reachesSomething(int line) {
    BitSet reached = reached(line, true);
    for (int other = 0; other < lines.size(); other++) {
      if (lines.get(other).watched()
          && reached.get(circuit.lineNode(other))
          && !circuit.isRail(circuit.lineNode(other))
          && other != line) {
        return true;
      }
    }
    return !loads(reached).isEmpty();
  }

  /** Nodes that current from a line reaches before it comes to a rail. */
  private BitSet reached(int line, boolean throughContacts) {
    BitSet reached = new BitSet();
    Deque<Integer> waiting = new ArrayDeque<>();
    reached.set(circuit.lineNode(line));
    waiting.add(circuit.lineNode(line));
    while (!waiting.isEmpty()) {
      int node = waiting.remove();
      if (circuit.isRail(node)) {
        continue;
      }
      for (int l : circuit.at(node)) {
        Link link = circuit.link(l);
        boolean passes = throughContacts || !link.isContact();
        if (passes && link.leaves(node) && !link.weak() && !reached.get(link.other(node))) {
          reached.set(link.other(node));
          waiting.add(link.other(node));
        }
      }
    }
    return reached;
  }

  private Set<Load> loads(BitSet nodes) {
    Set<Load> loads = new LinkedHashSet<>();
    for (int node = nodes.nextSetBit(0); node >= 0; node = nodes.nextSetBit(node + 1)) {
      if (!circuit.isRail(node)) {
        for (Load load : circuit.loadsAt(node)) {
          int other = load.other(node);
          if (other != Terminal.NOT_WIRED && other != node) {
            loads.add(load);
          }
        }
      }
    }
    return loads;
  }

  private LineLoad load(int line) {
    Set<Load> direct = loads(reached(line, false));
    List<String> names = direct.stream().map(load -> load.part().name()).toList();
    return new LineLoad(
        line, lines.get(line).name(), names, sum(direct), sum(loads(reached(line, true))));
  }

  private double sum(Set<Load> loads) {
    return loads.stream().mapToDouble(l -> l.milliamps(settings.supplyMillivolts())).sum();
  }

  /** By a way that no relay forbids, or through a load, as a pull-up is. */
  private boolean canBeLit(int line) {
    int node = circuit.lineNode(line);
    return search.wayTo(node, ends.sources()).isPresent() || search.gaveUp() || throughLoads(node);
  }

  private boolean throughLoads(int end) {
    BitSet reached = new BitSet();
    Deque<Integer> waiting = new ArrayDeque<>();
    reached.set(end);
    waiting.add(end);
    boolean load = false;
    while (!waiting.isEmpty()) {
      int node = waiting.remove();
      if (ends.sources().get(node)) {
        return load;
      }
      if (circuit.isRail(node)) {
        continue;
      }
      for (int l : circuit.at(node)) {
        visit(
            circuit.link(l).other(node),
            circuit.link(l).leaves(circuit.link(l).other(node)),
            reached,
            waiting);
      }
      for (Load one : circuit.loadsAt(node)) {
        load = true;
        visit(one.other(node), one.other(node) != Terminal.NOT_WIRED, reached, waiting);
      }
    }
    return false;
  }

  private static void visit(int node, boolean may, BitSet reached, Deque<Integer> waiting) {
    if (may && !reached.get(node)) {
      reached.set(node);
      waiting.add(node);
    }
  }
}
