package cardproof.files.draft;

import cardproof.card.Line;
import cardproof.plan.sight.LineFault;
import java.util.ArrayList;
import java.util.List;

/**
 * What a plan finds of faults of the lines that it drives, in words.
 *
 * @param all that were looked for
 * @param unseeable those of them that no plan can find, as was proved
 * @param left the others that this plan does not find
 * @param tried words beside the plan's that do not find them either
 */
record Findings(List<LineFault> all, List<LineFault> unseeable, List<LineFault> left, long tried) {
  /** Names of lines beyond this column go into the next line. */
  private static final int WIDTH = 90;

  /** More sets of lines than these are not listed. */
  private static final int MOST_LISTED = 24;

  /** For the head of the plan. */
  List<String> comment() {
    List<String> lines = new ArrayList<>();
    lines.add("By the card's behaviour, one fault at a time put in, this plan finds");
    lines.add(
        "  " + stuckFound() + " of " + stuck() + " driven lines stuck, at ground or at supply");
    if (all.size() > stuck()) {
      lines.add(
          "  " + exchangedFound() + " of " + exchanged() + " pairs of driven lines exchanged.");
    }
    if (!unseeable.isEmpty()) {
      lines.add("No plan can find these, for the behaviour is the same with them:");
      list(unseeable, lines);
    }
    if (!left.isEmpty()) {
      lines.add(
          "Neither this plan nor any of "
              + tried
              + " other words finds these; perhaps none can, or write a step for them:");
      list(left, lines);
    }
    return lines;
  }

  /** One sentence. */
  String summary() {
    String pairs =
        all.size() > stuck()
            ? " and " + exchangedFound() + " of " + exchanged() + " pairs exchanged"
            : "";
    String others =
        left.isEmpty()
            ? unseeable.isEmpty() ? "" : "; no plan can find the others, which its head names"
            : "; its head names the others";
    return "By the card's behaviour it finds "
        + stuckFound()
        + " of "
        + stuck()
        + " stuck lines"
        + pairs
        + others
        + ".";
  }

  private long stuck() {
    return all.stream().filter(LineFault.Stuck.class::isInstance).count();
  }

  private long exchanged() {
    return all.size() - stuck();
  }

  private long stuckFound() {
    return stuck() - missed().stream().filter(LineFault.Stuck.class::isInstance).count();
  }

  private long exchangedFound() {
    return exchanged() - missed().stream().filter(LineFault.Exchanged.class::isInstance).count();
  }

  private List<LineFault> missed() {
    List<LineFault> missed = new ArrayList<>(unseeable);
    missed.addAll(left);
    return missed;
  }

  private static void list(List<LineFault> faults, List<String> lines) {
    for (boolean atSupply : new boolean[] {false, true}) {
      List<Line> stuck = FaultWords.stuck(faults, atSupply);
      if (!stuck.isEmpty()) {
        String where = atSupply ? "supply" : "ground";
        wrapped("  stuck at " + where + ": ", List.of(FaultWords.lines(stuck)), lines);
      }
    }
    List<String> exchanged = ExchangeWords.of(faults);
    if (!exchanged.isEmpty()) {
      wrapped("  exchanged with one another: ", exchanged, lines);
    }
  }

  private static void wrapped(String head, List<String> texts, List<String> lines) {
    StringBuilder line = new StringBuilder(head);
    for (int i = 0; i < Math.min(texts.size(), MOST_LISTED); i++) {
      String text = texts.get(i) + (i + 1 < texts.size() ? "; " : "");
      if (line.length() + text.length() > WIDTH && line.length() > head.length()) {
        lines.add(line.toString().stripTrailing());
        line = new StringBuilder("    ");
      }
      line.append(text);
    }
    if (texts.size() > MOST_LISTED) {
      line.append("and ").append(texts.size() - MOST_LISTED).append(" more");
    }
    lines.add(line.toString());
  }
}
