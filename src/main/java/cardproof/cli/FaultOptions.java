package cardproof.cli;

import cardproof.card.Card;
import cardproof.card.fault.Fault;
import cardproof.card.fault.FaultNames;
import cardproof.fixture.FixtureProfile;
import cardproof.sim.line.LineFault;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Option;

/** What is to be wrong with a simulated card, and with the line to it. */
final class FaultOptions {
  @Option(
      names = "--fault",
      paramLabel = "FAULT",
      description = {
        "put a fault into the simulated card; may be repeated. Of a line:",
        FaultNames.LINE_FORMS + ".",
        "Of a card with wiring also:",
        FaultNames.WIRING_FORMS + ".",
        "Behind any but the last of these: ', in 10 %% of spells of 5 ms'.",
        "Or into the line to the fixture: 'link: lose 1 %%, delay 16 ms'."
      })
  private List<String> names = List.of();

  List<String> names() {
    return names;
  }

  /** What is wrong stays as it was when the run to be continued was begun. */
  void asRecorded(List<String> recorded) {
    names = List.copyOf(recorded);
  }

  /** Faults by where they lie. */
  record Planted(List<Fault> card, List<LineFault> line) {}

  /**
   * @throws RefusedException with all that is wrong with their names, or where the fixture is real
   */
  Planted read(Card card, FixtureProfile profile) {
    if (!names.isEmpty() && !profile.simulated()) {
      throw new RefusedException(
          new Problem(
              "--fault",
              "faults can only be put into a simulated card",
              "the simulated bench",
              "Leave --port out, or leave --fault out"));
    }
    List<Problem> problems = new ArrayList<>();
    List<LineFault> line = new ArrayList<>();
    List<String> rest = new ArrayList<>();
    for (String name : names) {
      if (LineFault.isOne(name)) {
        noting(problems, () -> line.add(LineFault.parse(name)));
      } else {
        rest.add(name);
      }
    }
    List<Fault> ofCard = new ArrayList<>();
    noting(problems, () -> ofCard.addAll(FaultNames.parseAll(rest, card)));
    if (!problems.isEmpty()) {
      throw new RefusedException(problems);
    }
    return new Planted(ofCard, line);
  }

  private static void noting(List<Problem> problems, Runnable reading) {
    try {
      reading.run();
    } catch (RefusedException refused) {
      problems.addAll(refused.problems());
    }
  }
}
