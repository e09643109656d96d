package cardproof.cli;

import cardproof.card.Card;
import cardproof.card.fault.Fault;
import cardproof.card.fault.FaultNames;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Relay;
import cardproof.log.BenchLog;
import cardproof.log.LineName;
import cardproof.log.VectorRecord;
import cardproof.sim.circuit.Faults;
import cardproof.sim.circuit.RelayCircuit;
import cardproof.timing.drift.Drift;
import cardproof.timing.drift.DriftWatch;
import cardproof.timing.drift.Series;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * The relays that would explain which lines got slower, by the card's wiring: each of them alone,
 * made slower, makes every one of those lines slower in its probe and leaves every steady line as
 * it is. At least two lines have to have got slower: one alone says little of where. Of cards that
 * hold state nothing is said, since nobody knows here what they held.
 */
final class WearingRelays {
  /** Far more than a sample, and far less than a limit. */
  private static final String SLOWER = " slow by 5 ms";

  private static final long SHIFT_NS = 1_000_000;
  private static final long NS_PER_US = 1_000;
  private static final long ANY_UNIT = 1;

  private final Card card;
  private final BenchLog log;
  private final Map<Long, long[]> soundNs = new HashMap<>();

  private WearingRelays(Card card, BenchLog log) {
    this.card = card;
    this.log = log;
  }

  /** Names of relays; empty where fewer than two lines got slower, or the wiring cannot say. */
  static List<String> of(Card card, BenchLog log, DriftWatch watch) {
    List<Drift> slower = watch.drifts().stream().filter(Drift::slower).toList();
    long lines = slower.stream().map(drift -> drift.series().line().line()).distinct().count();
    if (lines < 2 || card.wiring().isEmpty() || card.hasState()) {
      return List.of();
    }
    List<Drift> steady = watch.drifts().stream().filter(drift -> !drift.alarm()).toList();
    WearingRelays relays = new WearingRelays(card, log);
    return card.wiring().orElseThrow().parts().stream()
        .filter(Relay.class::isInstance)
        .map(Part::name)
        .filter(relay -> relays.explains(relay, slower, steady))
        .toList();
  }

  private boolean explains(String relay, List<Drift> slower, List<Drift> steady) {
    List<Fault> fault = List.of(FaultNames.parse(relay + SLOWER, card));
    Map<Long, long[]> nowNs = new HashMap<>();
    return slower.stream().allMatch(drift -> shifts(drift.series(), fault, nowNs))
        && steady.stream().noneMatch(drift -> shifts(drift.series(), fault, nowNs));
  }

  private boolean shifts(Series series, List<Fault> fault, Map<Long, long[]> nowNs) {
    long sound =
        soundNs
            .computeIfAbsent(series.transition(), t -> lastChanges(series, List.of()))[
            series.line().line()];
    long slow =
        nowNs
            .computeIfAbsent(series.transition(), t -> lastChanges(series, fault))[
            series.line().line()];
    return slow - sound >= SHIFT_NS;
  }

  /** When each line changed last after the drives of a probe, by the wiring; 0 for never. */
  private long[] lastChanges(Series series, List<Fault> faults) {
    long run = series.points().get(series.points().size() - 1).run();
    BitSet before =
        log.vector(run, series.vector() - 1).map(WearingRelays::on).orElseGet(BitSet::new);
    BitSet now = on(log.vector(run, series.vector()).orElseThrow());
    BitSet watched = new BitSet();
    for (LineName line : log.lines(run)) {
      watched.set(line.line(), line.watched());
    }
    RelayCircuit circuit =
        new RelayCircuit(
            Faults.put(card.wiring().orElseThrow(), card, faults, ANY_UNIT),
            card.supply(),
            watched,
            RelayCircuit.WATCH_OHMS,
            ANY_UNIT);
    long[] timeNs = {0};
    long[] lastNs = new long[card.lines().size()];
    long restNs = card.limits().watchUs() * NS_PER_US;
    driven(circuit, before, timeNs, restNs);
    long startNs = timeNs[0];
    circuit.onChange(line -> lastNs[line] = timeNs[0] - startNs);
    driven(circuit, now, timeNs, restNs);
    return lastNs;
  }

  private static BitSet on(VectorRecord vector) {
    BitSet on = (BitSet) vector.level().clone();
    on.and(vector.driven());
    return on;
  }

  private static void driven(RelayCircuit circuit, BitSet on, long[] timeNs, long restNs) {
    long untilNs = timeNs[0] + restNs;
    circuit.drive(timeNs[0], on);
    for (long next = circuit.nextChangeNs(); next <= untilNs; next = circuit.nextChangeNs()) {
      timeNs[0] = next;
      circuit.advance(next);
    }
    timeNs[0] = untilNs;
    circuit.advance(untilNs);
  }

  /** What may be said of them. */
  static List<String> words(List<String> relays) {
    List<String> words = new ArrayList<>();
    if (relays.size() == 1) {
      words.add(
          "By the wiring these lines share one relay that the steady ones do not wait for, "
              + relays.get(0)
              + ": this relay is wearing.");
    } else if (relays.size() > 1) {
      words.add(
          "By the wiring any of "
              + String.join(", ", relays)
              + " would make these lines slower and leave the steady ones: which one is not known.");
    }
    return words;
  }
}
