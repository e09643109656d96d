package cardproof.cli;

import cardproof.sim.circuit.CircuitWarnings;
import java.util.ArrayList;
import java.util.List;

/** What went on in a simulated card that its lines do not show, in sentences. */
final class BenchWarnings {
  private BenchWarnings() {}

  static List<String> of(CircuitWarnings warnings) {
    List<String> lines = new ArrayList<>();
    if (warnings.shortGlitches() > 0) {
      lines.add(
          Plural.of(warnings.shortGlitches(), "short")
              + " from supply to ground, each over within 2 ms: a real supply may trip, and"
              + " contacts burn");
    }
    if (warnings.weakReadings() > 0) {
      lines.add(
          Plural.of(warnings.weakReadings(), "time")
              + " a watched line stood between 40 and 60 % of the supply: a real fixture may read"
              + " it either way");
    }
    if (warnings.uncertainCoils() > 0) {
      lines.add(
          Plural.of(warnings.uncertainCoils(), "time")
              + " a coil stood so near to its threshold that a real one might do either");
    }
    if (warnings.limited() > 0) {
      lines.add(Plural.of(warnings.limited(), "time") + " the supply came to its current limit");
    }
    if (!warnings.blownFuses().isEmpty()) {
      lines.add("blown: " + String.join(", ", warnings.blownFuses()));
    }
    return lines.stream().map(line -> "warning: in the simulated card: " + line).toList();
  }
}
