package cardproof.cli;

import cardproof.log.BusWord;
import cardproof.log.LineName;
import cardproof.log.VectorRecord;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * One step of a made plan.
 *
 * @param title what it is for
 * @param drive what each bus is driven to, as a plan has it; {@link #RELEASED} for one let go of
 * @param widths lines of each of these buses
 * @param expect what must come back; empty where the card's behaviour says so
 */
record PaceStep(
    String title,
    Map<String, String> drive,
    Map<String, Integer> widths,
    Map<String, String> expect) {
  private static final String RELEASED = "released";

  /** What a logged vector drove. */
  static PaceStep of(String title, List<LineName> lines, VectorRecord vector, boolean expecting) {
    Map<String, List<LineName>> driven = new LinkedHashMap<>();
    Map<String, List<LineName>> watched = new LinkedHashMap<>();
    for (LineName line : lines) {
      if (line.driven()) {
        driven.computeIfAbsent(line.bus(), bus -> new ArrayList<>()).add(line);
      }
      if (line.watched()) {
        watched.computeIfAbsent(line.bus(), bus -> new ArrayList<>()).add(line);
      }
    }
    Map<String, String> drive = new LinkedHashMap<>();
    Map<String, Integer> widths = new LinkedHashMap<>();
    driven.forEach(
        (bus, of) -> {
          boolean any = of.stream().anyMatch(line -> vector.driven().get(line.line()));
          drive.put(bus, any ? on(of, vector) : RELEASED);
          widths.put(bus, of.size());
        });
    Map<String, String> expect = new LinkedHashMap<>();
    if (expecting) {
      watched.forEach(
          (bus, of) -> expect.put(bus, BusWord.of(of, vector.wanted(), vector.cared())));
    }
    return new PaceStep(title, drive, widths, expect);
  }

  /**
   * Steps from this one to another that change one bus at a time, the narrowest first: lines that
   * control come to rest before data moves, so that a register does not take what nobody meant.
   */
  List<PaceStep> waysTo(PaceStep other) {
    List<PaceStep> steps = new ArrayList<>();
    Map<String, String> now = new LinkedHashMap<>(drive);
    drive.keySet().stream()
        .sorted(Comparator.comparing(widths::get))
        .forEach(
            bus -> {
              String to = other.drive.get(bus);
              if (!to.equals(now.put(bus, to))) {
                steps.add(new PaceStep("on the way", new LinkedHashMap<>(now), widths, Map.of()));
              }
            });
    return steps;
  }

  /** As lines of a plan's file. */
  List<String> yaml() {
    List<String> lines = new ArrayList<>();
    lines.add("      - title: " + PacePlan.quoted(title));
    lines.add("        drive: " + map(drive));
    if (!expect.isEmpty()) {
      lines.add("        expect: " + map(expect));
    }
    return lines;
  }

  private static String map(Map<String, String> values) {
    List<String> entries = new ArrayList<>();
    values.forEach((bus, word) -> entries.add(bus + ": " + word));
    return "{" + String.join(", ", entries) + "}";
  }

  private static String on(List<LineName> lines, VectorRecord vector) {
    BitSet on = (BitSet) vector.level().clone();
    on.and(vector.driven());
    return BusWord.of(lines, on);
  }
}
