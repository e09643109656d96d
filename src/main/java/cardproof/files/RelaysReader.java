package cardproof.files;

import cardproof.card.Bus;
import cardproof.card.CardReview;
import cardproof.card.RelayFigures;
import cardproof.card.wiring.Wiring;
import cardproof.card.wiring.review.Chain;
import cardproof.text.Position;
import java.util.List;
import java.util.Optional;

/** The times of a card's relays, and the quiet floor that follows from them. */
final class RelaysReader {
  /** Longest quiet window; with the longest limit it stays within what a fixture can count. */
  static final long LONGEST_US = 1_800_000_000L;

  static final List<String> KEYS = List.of("unseen-stages", "operate", "release", "bounce");
  static final long LONGEST_RELAY_US = 10_000_000;
  static final long MOST_STAGES = 1000;

  private final Problems problems;

  RelaysReader(Problems problems) {
    this.problems = problems;
  }

  RelayFigures read(Optional<Node> node, Position card) {
    if (node.isEmpty()) {
      problems.warn(
          card,
          "the card says nothing of its relays, so " + words(RelayFigures.ASSUMED) + " is assumed",
          "",
          "Add relays: {unseen-stages: 1, operate: 15 ms, release: 18 ms, bounce: 8 ms} with the"
              + " figures of its data sheet");
      return RelayFigures.ASSUMED;
    }
    return Fields.of(node.get(), "relays", KEYS, problems)
        .map(this::figures)
        .orElse(RelayFigures.ASSUMED);
  }

  /**
   * The figures of a card of which the wiring is known; {@code relays} is then needed for none.
   *
   * @param wiring empty where it was refused
   * @param buses whose lines are the wiring's
   */
  RelayFigures read(Optional<Node> node, Optional<Wiring> wiring, List<Bus> buses) {
    Optional<Fields> fields = node.flatMap(stated -> Fields.of(stated, "relays", KEYS, problems));
    Optional<Chain> unseen = wiring.map(parts -> CardReview.chains(parts, buses).unseen());
    int longest = Math.max(1, unseen.map(Chain::stages).orElse(1));
    RelayFigures soldered =
        wiring.map(parts -> RelayFigures.of(parts, longest)).orElse(RelayFigures.ASSUMED);
    if (fields.isEmpty()) {
      return wiring.map(parts -> bounded(parts.at(), soldered)).orElse(soldered);
    }
    int stages = fields.get().has("unseen-stages") ? stages(fields.get()) : longest;
    RelayFigures stated =
        new RelayFigures(
            stages,
            stated(fields.get(), "operate", 1, soldered.operateUs()),
            stated(fields.get(), "release", 1, soldered.releaseUs()),
            stated(fields.get(), "bounce", 0, soldered.bounceUs()));
    if (wiring.isPresent() && stated.quietFloorUs() < soldered.quietFloorUs()) {
      problems.error(
          fields.get().at(),
          "'relays' gives a quiet floor of "
              + Quantity.TIME.text(stated.quietFloorUs())
              + ", and the wiring needs "
              + Quantity.TIME.text(soldered.quietFloorUs())
              + unseen.filter(chain -> chain.stages() > 1).map(RelaysReader::inTurn).orElse(""),
          "at least " + formula(soldered),
          "Take 'relays' out: all of it follows from the wiring");
      return soldered;
    }
    return bounded(fields.get().at(), stated);
  }

  private static String inTurn(Chain unseen) {
    return ": " + unseen + " may move in turn with no watched line changing between";
  }

  private long stated(Fields fields, String key, long leastUs, long otherwiseUs) {
    return fields
        .get(key)
        .map(
            node ->
                Quantity.TIME
                    .read(node, key, leastUs, LONGEST_RELAY_US, problems)
                    .orElse(otherwiseUs))
        .orElse(otherwiseUs);
  }

  private RelayFigures figures(Fields fields) {
    return bounded(
        fields.at(),
        new RelayFigures(
            stages(fields),
            time(fields, "operate", 1, RelayFigures.ASSUMED.operateUs()),
            time(fields, "release", 1, RelayFigures.ASSUMED.releaseUs()),
            time(fields, "bounce", 0, RelayFigures.ASSUMED.bounceUs())));
  }

  private RelayFigures bounded(Position at, RelayFigures figures) {
    if (figures.quietFloorUs() > LONGEST_US) {
      problems.error(
          at,
          "these relays need a quiet window of " + Quantity.TIME.text(figures.quietFloorUs()),
          "at most " + Quantity.TIME.text(LONGEST_US),
          "It is " + formula(figures));
      return RelayFigures.ASSUMED;
    }
    return figures;
  }

  private int stages(Fields fields) {
    if (!fields.has("unseen-stages")) {
      problems.warn(
          fields.at(),
          "relays has no 'unseen-stages', so 1 is assumed",
          "",
          "Count the most relays in series with no watched line between them");
      return RelayFigures.ASSUMED.unseenStages();
    }
    return (int)
        fields
            .get("unseen-stages")
            .map(node -> new Numbers(problems).count(node, "unseen-stages", 1, MOST_STAGES))
            .orElseThrow()
            .orElse(1);
  }

  private long time(Fields fields, String key, long leastUs, long assumedUs) {
    Optional<Node> node = fields.get(key);
    if (node.isEmpty()) {
      problems.warn(
          fields.at(),
          "relays has no '" + key + "', so " + Quantity.TIME.text(assumedUs) + " is assumed",
          "",
          "Add it from the data sheet of the relay");
      return assumedUs;
    }
    return Quantity.TIME
        .read(node.get(), key, leastUs, LONGEST_RELAY_US, problems)
        .orElse(assumedUs);
  }

  /** Refuses a quiet window in which a relay could still be travelling unseen. */
  static boolean longEnough(Node node, long quietUs, RelayFigures relays, Problems problems) {
    long floorUs = relays.quietFloorUs();
    if (quietUs >= floorUs) {
      return true;
    }
    problems.error(
        node.at(),
        "a quiet window of "
            + Quantity.TIME.text(quietUs)
            + " could end while a relay is still moving unseen",
        "at least " + Quantity.TIME.text(floorUs) + ", which is " + formula(relays),
        "Write a longer one, or correct 'relays' in the card if its figures are wrong");
    return false;
  }

  private static String formula(RelayFigures relays) {
    boolean release = relays.releaseUs() > relays.operateUs();
    return "1.25 x "
        + relays.unseenStages()
        + (relays.unseenStages() == 1 ? " unseen stage" : " unseen stages")
        + " x ("
        + Quantity.TIME.text(Math.max(relays.releaseUs(), relays.operateUs()))
        + (release ? " release + " : " operate + ")
        + Quantity.TIME.text(relays.bounceUs())
        + " bounce)";
  }

  private static String words(RelayFigures relays) {
    return relays.unseenStages()
        + " unseen stage of relays with operate "
        + Quantity.TIME.text(relays.operateUs())
        + ", release "
        + Quantity.TIME.text(relays.releaseUs())
        + ", bounce "
        + Quantity.TIME.text(relays.bounceUs());
  }
}
