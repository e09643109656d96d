package cardproof.files.draft;

import cardproof.card.Bus;
import cardproof.plan.sight.FaultSearch;
import cardproof.plan.sight.LineFault;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Words that show what no step before them does, few of them: of many that are tried, always the
 * one that shows most of what is left (the greedy cover of Chvatal, Mathematics of Operations
 * Research 4, 1979). Around each word that was of use its neighbours are tried too.
 */
final class MissingWords {
  /** Simulated patterns that a round may take, some seconds' worth. */
  private static final long MOST_TRIED = 500_000;

  private static final int ROUNDS = 5;

  private final DraftCard card;
  private final StepWriter writer;
  private final FaultSearch search;
  private final List<TrialWord> chosen = new ArrayList<>();
  private final Map<TrialWord, String> claims = new LinkedHashMap<>();
  private long tried;

  /**
   * @param search has seen all steps before these, and sees these
   */
  MissingWords(DraftCard card, StepWriter writer, FaultSearch search) {
    this.card = card;
    this.writer = writer;
    this.search = search;
  }

  /** How many words were tried, those that went into steps included. */
  long tried() {
    return tried;
  }

  /**
   * @param witnesses levels by bus index that are known to show something
   */
  List<DraftStep> all(List<long[]> witnesses) {
    TrialWords words = new TrialWords(card);
    List<TrialWord> pool = words.first(witnesses, search.left());
    for (int round = 0; round < ROUNDS && !pool.isEmpty() && !search.left().isEmpty(); round++) {
      pool = words.around(choose(within(pool)));
    }
    return steps();
  }

  private List<TrialWord> within(List<TrialWord> pool) {
    long most = Math.max(1, MOST_TRIED / search.left().size());
    return pool.size() <= most ? pool : pool.subList(0, (int) most);
  }

  /** The words of a pool that were of use. */
  private List<TrialWord> choose(List<TrialWord> pool) {
    tried += pool.size();
    List<LineFault> before = search.left();
    Map<TrialWord, BitSet> finds = new LinkedHashMap<>();
    for (TrialWord word : pool) {
      BitSet found = search.wouldFind(word.patterns());
      if (!found.isEmpty()) {
        finds.put(word, found);
      }
    }
    List<TrialWord> useful = new ArrayList<>();
    while (!finds.isEmpty()) {
      TrialWord best = best(finds);
      finds.remove(best);
      BitSet now = search.wouldFind(best.patterns());
      if (!now.isEmpty()) {
        useful.add(best);
        best.patterns().forEach(search::take);
        leave(finds, before);
      }
    }
    chosen.addAll(useful);
    return useful;
  }

  private static TrialWord best(Map<TrialWord, BitSet> finds) {
    TrialWord best = null;
    int most = -1;
    for (Map.Entry<TrialWord, BitSet> entry : finds.entrySet()) {
      if (entry.getValue().cardinality() > most) {
        best = entry.getKey();
        most = entry.getValue().cardinality();
      }
    }
    return best;
  }

  /** Takes out what has been found by now. */
  private void leave(Map<TrialWord, BitSet> finds, List<LineFault> before) {
    Set<LineFault> left = new HashSet<>(search.left());
    BitSet still = new BitSet();
    for (int i = 0; i < before.size(); i++) {
      still.set(i, left.contains(before.get(i)));
    }
    finds
        .values()
        .removeIf(
            found -> {
              found.and(still);
              return found.isEmpty();
            });
  }

  private List<DraftStep> steps() {
    Map<Optional<Bus>, List<TrialWord>> byPulse =
        chosen.stream()
            .collect(
                Collectors.groupingBy(TrialWord::pulsed, LinkedHashMap::new, Collectors.toList()));
    return byPulse.entrySet().stream().map(e -> step(e.getKey(), e.getValue())).toList();
  }

  private DraftStep step(Optional<Bus> pulsed, List<TrialWord> words) {
    List<Bus> columns = new ArrayList<>(card.inputs());
    pulsed.ifPresent(columns::remove);
    card.shared().stream()
        .filter(bus -> words.stream().anyMatch(w -> w.levels()[card.index(bus)] != 0))
        .forEach(columns::add);
    StringBuilder rest = new StringBuilder("    table:\n      drive: [");
    rest.append(columns.stream().map(Bus::name).collect(Collectors.joining(", ")));
    rest.append("]\n      rows:\n");
    for (TrialWord word : words) {
      rest.append("        - [");
      rest.append(
          columns.stream()
              .map(bus -> StepWriter.word(word.levels()[card.index(bus)]))
              .collect(Collectors.joining(", ")));
      rest.append("]\n");
    }
    pulsed.ifPresent(line -> rest.append(StepWriter.pulse(line.name())));
    return writer.step(
        List.of("Each of these words shows a fault that no step above does."),
        "words that tell lines apart" + pulsed.map(l -> ", " + l.name() + " pulsed").orElse(""),
        columns,
        card.rest(),
        rest.toString());
  }
}
