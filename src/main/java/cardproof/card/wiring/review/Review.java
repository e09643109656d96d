package cardproof.card.wiring.review;

import cardproof.card.wiring.Wiring;
import java.util.BitSet;
import java.util.List;
import java.util.OptionalDouble;

/**
 * What can be said of a wiring before anything is soldered. Immutable.
 *
 * @param findings errors first
 * @param loads of driven lines that are wired
 */
public record Review(
    List<Finding> findings,
    Tally tally,
    Chains chains,
    StageTimes times,
    Currents currents,
    List<LineLoad> loads) {
  public Review {
    findings = List.copyOf(findings);
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
      // contacts have nothing to say then
      Chains none = Chains.of(wiring, lines);
      return of(circuit, findings, none, OptionalDouble.empty(), settings, List.of());
    }
    Ends ends = Ends.of(circuit, lines);
    WaySearch search = new WaySearch(circuit);
    new CoilChecks(circuit, ends, search, words, settings.supplyMillivolts(), findings).check();
    new ShortChecks(circuit, lines, search, words, findings).check();
    List<LineLoad> loads = new LineChecks(circuit, lines, ends, search, settings, findings).check();
    new RestChecks(circuit, lines, findings).check();
    return of(
        circuit, findings, Chains.of(circuit, lines), atRest(circuit, settings), settings, loads);
  }

  private static Review of(
      Circuit circuit,
      Findings findings,
      Chains chains,
      OptionalDouble atRest,
      ReviewSettings settings,
      List<LineLoad> loads) {
    return new Review(
        findings.sorted(),
        Tally.of(circuit.wiring()),
        chains,
        StageTimes.of(circuit),
        Currents.of(circuit, settings.supplyMillivolts(), atRest),
        loads);
  }

  private static OptionalDouble atRest(Circuit circuit, ReviewSettings settings) {
    ContactLogic logic = new ContactLogic(circuit);
    return logic.drive(new BitSet())
        ? OptionalDouble.of(logic.milliamps(settings.supplyMillivolts()))
        : OptionalDouble.empty();
  }
}
