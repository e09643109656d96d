package cardproof.cli;

import cardproof.card.Card;
import cardproof.card.RelayFigures;
import cardproof.card.wiring.review.Chain;
import cardproof.card.wiring.review.Currents;
import cardproof.card.wiring.review.Finding;
import cardproof.card.wiring.review.LineLoad;
import cardproof.card.wiring.review.Review;
import cardproof.card.wiring.review.Severity;
import cardproof.card.wiring.review.Tally;
import cardproof.fixture.HookUp;
import cardproof.text.Micros;
import java.io.PrintWriter;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;

/** What can be said of a card's wiring before anything is soldered, in words. */
final class ReviewReport {
  private static final int MOST_IN_A_CHAIN = 8;
  private static final int MOST_PARTS = 6;

  private final Card card;
  private final Screen screen;
  private final PrintWriter out;

  ReviewReport(Card card, Screen screen) {
    this.card = card;
    this.screen = screen;
    this.out = screen.out();
  }

  /** Which card it is. */
  void overview() {
    out.println(screen.strong(card.title()));
    out.println(
        "card "
            + card.name()
            + ": "
            + HookUp.drivesNeeded(card)
            + " lines driven, "
            + HookUp.watchesNeeded(card)
            + " watched, "
            + (card.hasState() ? "holds state" : "no state"));
    out.println(
        "  settle limit "
            + Micros.text(card.limits().settleUs())
            + ", quiet window "
            + Micros.text(card.limits().quietUs())
            + " (floor "
            + floor(card.relays())
            + ")");
    out.println();
  }

  /** All of it. */
  void print(Review review) {
    parts(review.tally());
    chains(review);
    currents(review.currents());
    firstPower(review);
    loads(review.loads());
    findings(review.findings());
  }

  /** What a plan's check says of it. */
  void brief(Review review) {
    out.println("wiring");
    out.println("  " + Plural.of(review.tally().relays(), "relay") + types(review.tally()));
    out.println("  longest chain of relays: " + words(review.chains().longest()));
    out.println("  longest that moves unseen: " + words(review.chains().unseen()));
    out.println("  quiet floor " + floor(card.relays()));
    long errors = review.findings().stream().filter(Finding::isError).count();
    long warnings = review.findings().size() - errors;
    out.println(
        review.findings().isEmpty()
            ? "  nothing found wrong with it"
            : "  found wrong with it: "
                + Plural.of(errors, "error")
                + " and "
                + Plural.of(warnings, "warning")
                + "; 'cardproof check "
                + card.at().file()
                + "' lists them");
    out.println();
  }

  private void parts(Tally tally) {
    out.println("parts");
    out.println("  " + Plural.of(tally.relays(), "relay") + types(tally));
    out.println("  " + tally.polesUsed() + " poles used, " + tally.polesSpare() + " spare");
    out.println(
        "  "
            + Plural.of(tally.diodes(), "diode")
            + ", "
            + Plural.of(tally.lamps(), "lamp")
            + ", "
            + Plural.of(tally.otherParts(), "other part"));
    out.println();
  }

  private static String types(Tally tally) {
    return tally.relaysByType().entrySet().stream()
        .map(type -> type.getValue() + " " + type.getKey())
        .collect(Collectors.joining(", ", ": ", ""));
  }

  private void chains(Review review) {
    out.println("chains of relays");
    out.println("  longest: " + words(review.chains().longest()));
    out.println(
        "  longest that moves with no watched line changing: " + words(review.chains().unseen()));
    byStages(review).values().forEach(this::untilThese);
    out.println("  quiet floor " + floor(card.relays()));
    out.println();
  }

  /** Outputs that equally long chains come before. */
  private static Map<Integer, Map<String, Chain>> byStages(Review review) {
    Map<Integer, Map<String, Chain>> outputs = new LinkedHashMap<>();
    review
        .chains()
        .unseenByOutput()
        .forEach(
            (line, chain) ->
                outputs
                    .computeIfAbsent(chain.stages(), n -> new LinkedHashMap<>())
                    .put(line, chain));
    return outputs;
  }

  private void untilThese(Map<String, Chain> outputs) {
    List<Chain> chains = outputs.values().stream().distinct().toList();
    out.println(
        "    until "
            + LineRanges.of(List.copyOf(outputs.keySet()))
            + ": "
            + words(chains.get(0))
            + (chains.size() > 1 ? ", and others" : ""));
  }

  /** {@code 2 stages: A[0] - C[1]}. */
  static String words(Chain chain) {
    if (chain.stages() == 0) {
      return "none";
    }
    List<String> relays = chain.relays();
    String names =
        relays.size() <= MOST_IN_A_CHAIN
            ? chain.toString()
            : String.join(" - ", relays.subList(0, MOST_IN_A_CHAIN - 1))
                + " - ... - "
                + relays.get(relays.size() - 1);
    return Plural.of(chain.stages(), "stage") + ": " + names;
  }

  /** The quiet floor, and how it is made. */
  static String floor(RelayFigures relays) {
    return Micros.text(relays.quietFloorUs())
        + ": 1.25 x "
        + relays.unseenStages()
        + " x ("
        + Micros.text(Math.max(relays.operateUs(), relays.releaseUs()))
        + " + "
        + Micros.text(relays.bounceUs())
        + ")";
  }

  private void currents(Currents currents) {
    out.println("current at " + volts(card.supply().millivolts()));
    out.println(
        "  with nothing driven: "
            + (currents.atRest().isPresent()
                ? milliamps(currents.atRest().getAsDouble())
                : "not known: a short, or relays that do not come to rest"));
    out.println(
        "  never more than "
            + milliamps(currents.most())
            + ": all coils at once "
            + milliamps(currents.coils())
            + ", lamps "
            + milliamps(currents.lamps())
            + ", resistors "
            + milliamps(currents.others())
            + " (a bound; the supply's limit is "
            + milliamps(card.supply().limitMilliamps())
            + ")");
    out.println();
  }

  /** What to set the supply to, and what to look at before. */
  void firstPower(Review review) {
    out.println("first power");
    for (String caution : FirstPower.cautions()) {
      out.println("  - " + caution);
    }
    for (String figure : FirstPower.of(card, review.currents()).figures()) {
      out.println("  " + figure);
    }
    out.println();
  }

  private void loads(List<LineLoad> loads) {
    if (loads.isEmpty()) {
      return;
    }
    out.println("what each drive feeds, mA");
    row("line", "directly", "at most", "parts fed directly");
    for (LineLoad load : loads) {
      List<String> parts = load.parts();
      String named =
          parts.size() <= MOST_PARTS
              ? String.join(", ", parts)
              : String.join(", ", parts.subList(0, MOST_PARTS))
                  + " and "
                  + (parts.size() - MOST_PARTS)
                  + " more";
      row(load.name(), whole(load.milliamps()), whole(load.mostMilliamps()), named);
    }
    out.println("  at most: with all that contacts could ever put on the line; a bound");
    out.println();
  }

  private void row(String line, String direct, String most, String parts) {
    out.println(
        String.format(Locale.ROOT, "  %-12s %8s %8s  %s", line, direct, most, parts)
            .stripTrailing());
  }

  private void findings(List<Finding> findings) {
    if (findings.isEmpty()) {
      out.println(screen.good("Nothing found wrong with the wiring."));
      return;
    }
    out.println("findings");
    for (Finding finding : findings) {
      boolean error = finding.severity() == Severity.ERROR;
      String word = error ? screen.bad("error") : "warning";
      out.println("  " + word + ": " + finding.problem());
    }
  }

  private static String whole(double milliamps) {
    return String.format(Locale.ROOT, "%.0f", milliamps);
  }

  private static String milliamps(double milliamps) {
    return milliamps < 1_000
        ? whole(milliamps) + " mA"
        : String.format(Locale.ROOT, "%.2f A", milliamps / 1e3);
  }

  private static String volts(long millivolts) {
    return String.format(Locale.ROOT, "%.1f V", millivolts / 1e3);
  }
}
