package cardproof.files;

import cardproof.card.RelayFigures;
import java.util.OptionalLong;

/** What a pair says of its relays, over what follows from its cards. */
final class PairRelays {
  private final Fields fields;
  private final Problems problems;

  PairRelays(Fields fields, Problems problems) {
    this.fields = fields;
    this.problems = problems;
  }

  RelayFigures over(RelayFigures together) {
    RelayFigures given =
        new RelayFigures(
            fields
                .get("unseen-stages")
                .map(
                    node ->
                        new Numbers(problems)
                            .count(node, "unseen-stages", 1, RelaysReader.MOST_STAGES))
                .filter(OptionalLong::isPresent)
                .map(stages -> (int) stages.getAsLong())
                .orElse(together.unseenStages()),
            time("operate", 1, together.operateUs()),
            time("release", 1, together.releaseUs()),
            time("bounce", 0, together.bounceUs()));
    if (given.quietFloorUs() > RelaysReader.LONGEST_US) {
      problems.error(
          fields.at(),
          "these relays need a quiet window of " + Quantity.TIME.text(given.quietFloorUs()),
          "at most " + Quantity.TIME.text(RelaysReader.LONGEST_US),
          "");
      return together;
    }
    return given;
  }

  private long time(String key, long leastUs, long elseUs) {
    return fields
        .get(key)
        .map(n -> Quantity.TIME.read(n, key, leastUs, RelaysReader.LONGEST_RELAY_US, problems))
        .filter(OptionalLong::isPresent)
        .map(OptionalLong::getAsLong)
        .orElse(elseUs);
  }
}
