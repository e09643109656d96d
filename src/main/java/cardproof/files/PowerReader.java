package cardproof.files;

import cardproof.plan.Power;
import cardproof.plan.Timing;
import java.util.List;
import java.util.Optional;

/** {@code power: off} and {@code power: on}, with {@code wait} for how long the card is left so. */
final class PowerReader {
  private static final List<String> NOT_BESIDE =
      List.of("drive", "release", "each", "table", "march", "pulse", "sequence", "dwell");

  private final Problems problems;

  PowerReader(Problems problems) {
    this.problems = problems;
  }

  /**
   * What a step says of the supply; without a wait the card is left alone as long as it may move.
   */
  Optional<Power> read(Fields fields, Timing timing) {
    if (!fields.has("power")) {
      fields
          .entry("wait")
          .ifPresent(
              entry ->
                  problems.error(
                      entry.key().at(),
                      "'wait' stands in a step that does not switch the supply",
                      "'wait' beside 'power' only",
                      "To look at a card for longer, write a longer 'watch'"));
      return Optional.empty();
    }
    for (String other : NOT_BESIDE) {
      fields
          .entry(other)
          .ifPresent(
              entry ->
                  problems.error(
                      entry.key().at(),
                      entry.key().described()
                          + " stands beside 'power', which releases every drive first",
                      "one of them in a step",
                      "Make two steps of it"));
    }
    long waitUs =
        fields
            .get("wait")
            .map(n -> Quantity.TIME.read(n, "wait", 0, LimitsReader.LONGEST_WATCH_US, problems))
            .map(read -> read.orElse(0))
            .orElse(timing.watchUs());
    return fields.get("power").flatMap(this::on).map(on -> new Power(on, waitUs));
  }

  private Optional<Boolean> on(Node node) {
    if (node instanceof Node.Text text && List.of("on", "off").contains(text.text().strip())) {
      return Optional.of(text.text().strip().equals("on"));
    }
    problems.error(
        node.at(),
        node.saidOf("power"),
        "on or off: what the card's supply is switched to",
        "How long it stays so before the next vector is said by 'wait'");
    return Optional.empty();
  }
}
