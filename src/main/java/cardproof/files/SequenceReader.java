package cardproof.files;

import cardproof.plan.Later;
import cardproof.plan.Setting;
import cardproof.plan.Timing;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;

/** {@code sequence: {0 ms: {D: 5}, 20 ms: {LD: 1}}}: settings of one vector by their times. */
final class SequenceReader {
  private static final String FORM =
      "times from the start with what is set then, such as sequence: {0 ms: {D: 5}, 20 ms: {LD: 1}}";

  private final PlanNames names;
  private final Problems problems;

  SequenceReader(PlanNames names, Problems problems) {
    this.names = names;
    this.problems = problems;
  }

  /** What is set at each time, in rising order of time; that of time 0 is part of the pattern. */
  List<Later> read(Node node, Timing timing) {
    List<Later> sequence = new ArrayList<>();
    if (!(node instanceof Node.Mapping map) || map.entries().isEmpty()) {
      problems.error(
          node.at(),
          "'sequence' " + (node instanceof Node.Mapping ? "is empty" : "is " + node.described()),
          FORM,
          "");
      return sequence;
    }
    SettingReader settings = new SettingReader(names, problems);
    long lastUs = -1;
    for (Node.Entry entry : map.entries()) {
      OptionalLong atUs =
          Quantity.TIME.read(entry.key(), "sequence", 0, LimitsReader.LONGEST_WATCH_US, problems);
      List<Setting> set = settings.map(entry.value(), "sequence", new DrivenOnce(names, problems));
      if (atUs.isPresent() && isInOrder(entry.key(), lastUs, atUs.getAsLong(), timing)) {
        warnOfNear(entry.key(), lastUs, atUs.getAsLong(), timing);
        lastUs = atUs.getAsLong();
        sequence.add(new Later(lastUs, set));
      }
    }
    if (map.entries().size() == 1 && lastUs == 0) {
      problems.error(
          node.at(), "'sequence' sets nothing after 0 ms", FORM, "Or write it as a 'drive'");
    }
    return sequence;
  }

  private boolean isInOrder(Node.Text key, long lastUs, long atUs, Timing timing) {
    if (atUs <= lastUs) {
      problems.error(
          key.at(),
          key.described() + " does not come after " + Quantity.TIME.text(lastUs),
          "times in rising order, each once",
          "");
      return false;
    }
    if (names.card().isPresent() && atUs >= timing.longestLimitUs()) {
      problems.error(
          key.at(),
          key.described()
              + " is not before the limit of this step, "
              + Quantity.TIME.text(timing.longestLimitUs()),
          "a last time that leaves the card time to settle: limits count from the start",
          "Write a longer 'settle' in this step");
      return false;
    }
    return true;
  }

  /** The card need not have settled in between, so what it keeps may hang on which came first. */
  private void warnOfNear(Node.Text key, long lastUs, long atUs, Timing timing) {
    boolean near = atUs > 0 && atUs - Math.max(0, lastUs) < timing.quietUs();
    if (near && names.card().filter(card -> card.hasState()).isPresent()) {
      problems.warn(
          key.at(),
          key.described()
              + " comes less than the quiet window of "
              + Quantity.TIME.text(timing.quietUs())
              + " after what was set before: what hangs on their order is not judged",
          "",
          "Say what must come back in 'expect', which is always judged");
    }
  }
}
