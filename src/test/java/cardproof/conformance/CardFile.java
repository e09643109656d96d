package cardproof.conformance;

import java.util.ArrayList;
import java.util.List;

/** A {@link CardScript} in the words of the reference fixture's host port. */
final class CardFile {
  private CardFile() {}

  static List<String> of(CardScript card) {
    List<String> lines = new ArrayList<>();
    for (CardScript.Follow rule : card.follows()) {
      lines.add(
          "watch %d %s drive %d after %d us release %d us%s"
              .formatted(
                  rule.watch(),
                  rule.inverted() ? "inverts" : "follows",
                  rule.drive(),
                  rule.afterUs(),
                  rule.releaseUs(),
                  rule.bounces() == 0
                      ? ""
                      : " bounce %d x %d us".formatted(rule.bounces(), rule.bounceUs())));
    }
    for (CardScript.Oscillate rule : card.oscillates()) {
      lines.add(
          "watch %d oscillates %d us while drive %d"
              .formatted(rule.watch(), rule.everyUs(), rule.drive()));
    }
    card.constants().forEach(rule -> lines.add("watch %d is 1".formatted(rule.watch())));
    return lines;
  }
}
