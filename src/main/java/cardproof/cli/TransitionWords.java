package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.BusWord;
import cardproof.log.LineName;
import cardproof.log.StepTitle;
import cardproof.log.VectorRecord;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Says what a transition is: what was driven before and then, and where a plan has it. */
final class TransitionWords {
  private final BenchLog log;
  private final Map<Long, Run> runs = new LinkedHashMap<>();

  /** What of a run is needed again and again. */
  private record Run(Map<String, List<LineName>> driven, List<StepTitle> steps) {}

  TransitionWords(BenchLog log) {
    this.log = log;
  }

  /**
   * {@code A 0x000 -> 0xFFF, B 0x001, CI 0}: an arrow where a bus changed.
   *
   * @param run a run that has the transition
   * @param vector number of a vector of that transition
   */
  String drives(long run, long vector) {
    VectorRecord now = log.vector(run, vector).orElseThrow();
    Optional<VectorRecord> before = vector == 0 ? Optional.empty() : log.vector(run, vector - 1);
    List<String> words = new ArrayList<>();
    of(run)
        .driven()
        .forEach(
            (bus, lines) -> {
              String from = before.map(record -> value(lines, record)).orElse("released");
              String to = value(lines, now);
              words.add(bus + " " + (from.equals(to) ? to : from + " -> " + to));
            });
    return String.join(", ", words);
  }

  /** Where the plan has a vector, as {@code plan.yaml:30#4}. */
  String place(long run, long vector) {
    VectorRecord record = log.vector(run, vector).orElseThrow();
    return of(run).steps().stream()
        .filter(step -> step.step() == record.step())
        .map(step -> step.origin(record.indexInStep()))
        .findFirst()
        .orElseThrow();
  }

  private static String value(List<LineName> lines, VectorRecord record) {
    BitSet driven = record.driven();
    if (lines.stream().noneMatch(line -> driven.get(line.line()))) {
      return "released";
    }
    BitSet on = (BitSet) record.level().clone();
    on.and(driven);
    return BusWord.of(lines, on);
  }

  private Run of(long run) {
    return runs.computeIfAbsent(
        run,
        id -> {
          Map<String, List<LineName>> driven = new LinkedHashMap<>();
          for (LineName line : log.lines(id)) {
            if (line.driven()) {
              driven.computeIfAbsent(line.bus(), bus -> new ArrayList<>()).add(line);
            }
          }
          return new Run(driven, log.run(id).orElseThrow().steps());
        });
  }
}
