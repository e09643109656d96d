package cardproof.sim;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.card.fault.Fault;
import cardproof.card.fault.FaultNames;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Drives a card's circuit by bus name, with no fixture between, and notes every change. */
final class CardProbe {
  /** One change of a line, in nanoseconds from the drive before. */
  record Change(long afterNs, boolean level) {}

  final Card card;
  final Circuit circuit;
  private final BitSet driven = new BitSet();
  private final Map<String, List<Change>> seen = new TreeMap<>();
  private long nowNs;
  private long droveNs;

  CardProbe(Card card, long unit, String... faults) {
    this.card = card;
    List<Fault> all = new ArrayList<>();
    for (String fault : faults) {
      all.add(FaultNames.parse(fault, card));
    }
    this.circuit = new BehaviourCircuit(card, all, unit);
    circuit.onChange(this::note);
  }

  private void note(int line) {
    Line changed = card.lines().get(line);
    if (!changed.bus().role().watched()) {
      return; // moves with the drive, which is no news
    }
    seen.computeIfAbsent(changed.name(), name -> new ArrayList<>())
        .add(new Change(nowNs - droveNs, circuit.level(line)));
  }

  /** Drives these levels, the other lines as before, and waits for that long. */
  CardProbe drive(Map<String, Long> levels, long forUs) {
    levels.forEach(
        (bus, level) -> {
          int first = card.firstLine(card.busIndex(bus));
          for (int bit = 0; bit < card.buses().get(card.busIndex(bus)).width(); bit++) {
            driven.set(first + bit, (level >>> bit & 1) != 0);
          }
        });
    seen.clear();
    droveNs = nowNs;
    circuit.drive(nowNs, driven);
    return rest(forUs);
  }

  CardProbe rest(long forUs) {
    long endNs = nowNs + forUs * 1000;
    while (circuit.nextChangeNs() <= endNs) {
      nowNs = circuit.nextChangeNs();
      circuit.advance(nowNs);
    }
    nowNs = endNs;
    return this;
  }

  long read(String bus) {
    int index = card.busIndex(bus);
    long word = 0;
    for (int bit = 0; bit < card.buses().get(index).width(); bit++) {
      word |= circuit.level(card.firstLine(index) + bit) ? 1L << bit : 0;
    }
    return word;
  }

  /** Changes since the last drive, by line. */
  Map<String, List<Change>> changes() {
    return seen;
  }
}
