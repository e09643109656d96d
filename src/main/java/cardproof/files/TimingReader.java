package cardproof.files;

import cardproof.card.Card;
import cardproof.card.Limits;
import cardproof.plan.Timing;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * The times a plan or a step is held to, each level taking from the one above what it does not say.
 *
 * <p>A {@code settle} of a plan or step holds for every bus, also for those that have a limit of
 * their own in the card. A time of watching that is not said at a level grows with the limits that
 * are.
 */
final class TimingReader {
  private final Optional<Card> card;
  private final Problems problems;

  TimingReader(Optional<Card> card, Problems problems) {
    this.card = card;
    this.problems = problems;
  }

  /** The card's own; made up where the card could not be read. */
  Timing ofCard() {
    if (card.isEmpty()) {
      return new Timing(1, new long[0], 1, 2);
    }
    Limits limits = card.get().limits();
    long[] busSettleUs =
        card.get().buses().stream()
            .mapToLong(bus -> limits.busSettleUs().getOrDefault(bus.name(), 0L))
            .toArray();
    return new Timing(limits.settleUs(), busSettleUs, limits.quietUs(), limits.watchUs());
  }

  /** What holds where these fields are written. */
  Timing read(Fields fields, Timing above) {
    OptionalLong settleUs = time(fields, "settle", LimitsReader.LONGEST_SETTLE_US);
    OptionalLong quietUs = time(fields, "quiet", RelaysReader.LONGEST_US);
    OptionalLong watchUs = time(fields, "watch", LimitsReader.LONGEST_WATCH_US);
    if (card.isEmpty() || settleUs.isEmpty() && quietUs.isEmpty() && watchUs.isEmpty()) {
      return above;
    }
    long[] busSettleUs =
        settleUs.isPresent() ? new long[above.busSettleUs().length] : above.busSettleUs();
    long quiet = quietUs.orElse(above.quietUs());
    boolean good =
        quietUs.isEmpty()
            || RelaysReader.longEnough(
                fields.get("quiet").orElseThrow(), quiet, card.get().relays(), problems);
    Timing asked = new Timing(settleUs.orElse(above.settleUs()), busSettleUs, quiet, 0);
    long least = asked.longestLimitUs() + quiet;
    long watch = watchUs.orElse(Math.max(above.watchUs(), least));
    if (watchUs.isPresent() && good) {
      LimitsReader.watchedLongEnough(
          fields.get("watch").orElseThrow(), watch, asked.longestLimitUs(), quiet, problems);
    }
    checkHold(fields, watch);
    return new Timing(asked.settleUs(), busSettleUs, quiet, watch);
  }

  private OptionalLong time(Fields fields, String key, long mostUs) {
    return fields
        .get(key)
        .map(node -> Quantity.TIME.read(node, key, 1, mostUs, problems))
        .orElse(OptionalLong.empty());
  }

  private void checkHold(Fields fields, long watchUs) {
    long holdUs = card.orElseThrow().limits().holdMs() * 1000;
    if (watchUs > holdUs) {
      Node node =
          fields
              .get("watch")
              .or(() -> fields.get("settle"))
              .or(() -> fields.get("quiet"))
              .orElseThrow();
      problems.error(
          node.at(),
          "a step would be watched for up to "
              + Quantity.TIME.text(watchUs)
              + ", and the card's patterns may be held for "
              + Quantity.TIME.text(holdUs),
          "limits that end sooner",
          "Or write hold: "
              + Quantity.TIME.text(watchUs)
              + " under 'limits' in the card if its coils may be held so long");
    }
  }
}
