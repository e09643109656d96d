package cardproof.card.wiring.review;

import cardproof.card.wiring.Wiring;
import java.util.BitSet;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;

/**
 * What can be said of a wiring before anything is soldered. Immutable.
 *
 * @param findings errors first
 * @param longest the longest chain of relays, a group that feeds itself taken once round
 * @param unseen the longest chain that may move with no watched line changing, its last relay the
 *     one that shows or the tail that never does: it sets the quiet floor
 * @param unseenByOutput the same, ended by a change of that watched line
 * @param loads of driven lines that are wired
 */
public record Review(
    List<Finding> findings,
    Tally tally,
    Chain longest,
    Chain unseen,
    Map<String, Chain> unseenByOutput,
    StageTimes times,
    Currents currents,
    List<LineLoad> loads) {
  public Review {
    findings = List.copyOf(findings);
    unseenByOutput = Collections.unmodifiableMap(new LinkedHashMap<>(unseenByOutput));
    loads = List.copyOf(loads);
  }

  public boolean hasErrors() {
    return findings.stream().anyMatch(Finding::isError);
  }

  /**
   * @param lines of the card, by index, as many as the wiring has line nets
   */
  public static Review of(Wiring wiring, List<EdgeLine> lines, ReviewSettings settings) {
    if (lines.size() != wiring.lineNets().size()) {
      throw new IllegalArgumentException(lines.size() + " lines");
    }
    Findings findings = new Findings(wiring.at());
    new LooseEnds(wiring, lines, findings).check();
    Circuit circuit = new Circuit(wiring);
    Words words = new Words(circuit);
    if (ShortChecks.solid(circuit, words, findings)) {
      return shorted(circuit, findings, settings);
    }
    Ends ends = Ends.of(circuit, lines);
    AnyWay anyWay = AnyWay.of(circuit, ends);
    WaySearch search = new WaySearch(circuit);
    CoilChecks coils =
        new CoilChecks(circuit, ends, anyWay, search, words, settings.supplyMillivolts(), findings);
    coils.check();
    new ShortChecks(circuit, lines, search, words, findings).check();
    List<LineLoad> loads = new LineChecks(circuit, lines, ends, search, settings, findings).check();
    new RestChecks(circuit, lines, findings).check();
    Networks networks = new Networks(circuit, lines);
    Dependencies dependencies = new Dependencies(circuit, networks, anyWay);
    Silence silence =
        new Silence(circuit, dependencies, new Sightings(circuit, lines, networks, dependencies));
    return new Review(
        findings.sorted(),
        Tally.of(wiring),
        chain(circuit, dependencies.longest()),
        chain(circuit, silence.longest()),
        byOutput(circuit, lines, networks, silence),
        StageTimes.of(circuit.relays(), coils::slowed),
        Currents.of(circuit, settings.supplyMillivolts(), atRest(circuit, settings)),
        loads);
  }

  /** Where supply and ground are one, contacts have nothing to say. */
  private static Review shorted(Circuit circuit, Findings findings, ReviewSettings settings) {
    Flyback flyback = new Flyback(circuit);
    return new Review(
        findings.sorted(),
        Tally.of(circuit.wiring()),
        new Chain(List.of()),
        new Chain(List.of()),
        Map.of(),
        StageTimes.of(circuit.relays(), r -> flyback.slows(circuit.coil(r))),
        Currents.of(circuit, settings.supplyMillivolts(), OptionalDouble.empty()),
        List.of());
  }

  private static OptionalDouble atRest(Circuit circuit, ReviewSettings settings) {
    ContactLogic logic = new ContactLogic(circuit);
    return logic.drive(new BitSet())
        ? OptionalDouble.of(logic.milliamps(settings.supplyMillivolts()))
        : OptionalDouble.empty();
  }

  private static Map<String, Chain> byOutput(
      Circuit circuit, List<EdgeLine> lines, Networks networks, Silence silence) {
    Map<String, Chain> chains = new LinkedHashMap<>();
    for (int line = 0; line < lines.size(); line++) {
      if (lines.get(line).watched()) {
        Network network = networks.toSupply(circuit.lineNode(line));
        chains.put(lines.get(line).name(), chain(circuit, silence.longestUpTo(network.relays())));
      }
    }
    return chains;
  }

  private static Chain chain(Circuit circuit, List<Integer> relays) {
    return new Chain(relays.stream().map(circuit::relayName).toList());
  }
}
