package cardproof.files;

import cardproof.card.Limits;
import cardproof.card.RelayFigures;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;

/** What a card must keep to. */
final class LimitsReader {
  static final long LONGEST_SETTLE_US = RelaysReader.LONGEST_US;
  static final long LONGEST_WATCH_US = 3_600_000_000L;

  static final List<String> KEYS = List.of("settle", "quiet", "watch", "hold");
  private static final String EXAMPLE = "limits: {settle: 350 ms}";

  private final Problems problems;

  LimitsReader(Problems problems) {
    this.problems = problems;
  }

  Optional<Limits> read(Fields card, Map<String, Long> busSettleUs, RelayFigures relays) {
    return card.require("limits", EXAMPLE)
        .flatMap(node -> Fields.of(node, "limits", KEYS, problems))
        .flatMap(fields -> limits(fields, busSettleUs, relays));
  }

  private Optional<Limits> limits(
      Fields fields, Map<String, Long> busSettleUs, RelayFigures relays) {
    OptionalLong settleUs = OptionalLong.empty();
    Optional<Node> settle =
        fields.require("settle", "settle: 350 ms, the latest change of any output");
    if (settle.isPresent()) {
      settleUs = Quantity.TIME.read(settle.get(), "settle", 1, LONGEST_SETTLE_US, problems);
    }
    OptionalLong quietUs = quiet(fields, relays);
    OptionalLong watchUs = OptionalLong.empty();
    if (settleUs.isPresent() && quietUs.isPresent()) {
      long longestUs = busSettleUs.values().stream().mapToLong(Long::longValue).max().orElse(0);
      watchUs = watch(fields, Math.max(settleUs.getAsLong(), longestUs), quietUs.getAsLong());
    } else {
      fields.get("watch").ifPresent(this::watchTime);
    }
    OptionalLong holdMs = hold(fields, watchUs);
    if (watchUs.isEmpty() || holdMs.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new Limits(
            settleUs.getAsLong(),
            busSettleUs,
            quietUs.getAsLong(),
            watchUs.getAsLong(),
            holdMs.getAsLong()));
  }

  private OptionalLong quiet(Fields fields, RelayFigures relays) {
    Optional<Node> node = fields.get("quiet");
    if (node.isEmpty()) {
      return OptionalLong.of(relays.quietFloorUs());
    }
    OptionalLong quietUs =
        Quantity.TIME.read(node.get(), "quiet", 1, RelaysReader.LONGEST_US, problems);
    return quietUs.isPresent()
            && RelaysReader.longEnough(node.get(), quietUs.getAsLong(), relays, problems)
        ? quietUs
        : OptionalLong.empty();
  }

  private OptionalLong watch(Fields fields, long longestLimitUs, long quietUs) {
    Optional<Node> node = fields.get("watch");
    if (node.isEmpty()) {
      return OptionalLong.of(longestLimitUs + quietUs);
    }
    OptionalLong watchUs = watchTime(node.get());
    return watchUs.isPresent()
            && watchedLongEnough(node.get(), watchUs.getAsLong(), longestLimitUs, quietUs, problems)
        ? watchUs
        : OptionalLong.empty();
  }

  private OptionalLong watchTime(Node node) {
    return Quantity.TIME.read(node, "watch", 1, LONGEST_WATCH_US, problems);
  }

  /** Refuses a time of watching in which the card could not be seen to settle at its limit. */
  static boolean watchedLongEnough(
      Node node, long watchUs, long longestLimitUs, long quietUs, Problems problems) {
    if (watchUs >= longestLimitUs + quietUs) {
      return true;
    }
    problems.error(
        node.at(),
        "watching for "
            + Quantity.TIME.text(watchUs)
            + " ends before a card that is just in time has held still",
        "at least "
            + Quantity.TIME.text(longestLimitUs + quietUs)
            + ", the longest limit ("
            + Quantity.TIME.text(longestLimitUs)
            + ") and the quiet window ("
            + Quantity.TIME.text(quietUs)
            + ")",
        "");
    return false;
  }

  private OptionalLong hold(Fields fields, OptionalLong watchUs) {
    Optional<Node> node = fields.get("hold");
    OptionalLong holdUs =
        node.isPresent()
            ? Quantity.TIME.read(node.get(), "hold", 1000, LONGEST_WATCH_US, problems)
            : OptionalLong.of(Limits.DEFAULT_HOLD_MS * 1000);
    if (holdUs.isEmpty()) {
      return holdUs;
    }
    if (holdUs.getAsLong() % 1000 != 0) {
      problems.error(
          node.orElseThrow().at(), "'hold' is finer than 1 ms", "whole milliseconds", "");
      return OptionalLong.empty();
    }
    if (watchUs.isPresent() && watchUs.getAsLong() > holdUs.getAsLong()) {
      problems.error(
          node.map(Node::at).orElse(fields.at()),
          "a step is watched for up to "
              + Quantity.TIME.text(watchUs.getAsLong())
              + ", and a pattern may be held for "
              + Quantity.TIME.text(holdUs.getAsLong())
              + (node.isPresent() ? "" : " unless the card says otherwise"),
          "hold at least as long as watch",
          "Write hold: "
              + Quantity.TIME.text(watchUs.getAsLong())
              + " or more if the coils may be held so long");
      return OptionalLong.empty();
    }
    return OptionalLong.of(holdUs.getAsLong() / 1000);
  }
}
