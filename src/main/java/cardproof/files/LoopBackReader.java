package cardproof.files;

import cardproof.fixture.LoopBack;
import cardproof.fixture.Plug;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What a profile says of its loop-back plugs. {@code D0-30 to W1-31, D31 to W0} is one plug; spans
 * may run downwards.
 */
final class LoopBackReader {
  static final List<String> KEYS = List.of("plugs", "load");

  private static final String SPAN = "(\\d{1,4})(?:\\s*-\\s*%s?(\\d{1,4}))?";
  private static final Pattern WIRES =
      Pattern.compile("D" + SPAN.formatted("D") + "\\s+to\\s+W" + SPAN.formatted("W"));
  private static final String WANTED = "wires such as D0-30 to W1-31, D31 to W0";
  private static final long MOST_MILLIOHMS = 100_000_000_000L;

  private final Problems problems;
  private final int drives;
  private final int watches;

  LoopBackReader(Problems problems, int drives, int watches) {
    this.problems = problems;
    this.drives = drives;
    this.watches = watches;
  }

  LoopBack read(Fields fields) {
    double load =
        fields
                .get("load")
                .map(
                    n -> Quantity.RESISTANCE.read(n, "load", 1, MOST_MILLIOHMS, problems).orElse(0))
                .orElse(0L)
            / 1000.0;
    List<Plug> plugs =
        fields.get("plugs").map(this::plugs).orElseGet(() -> LoopBack.byRule(drives, watches));
    return new LoopBack(plugs, load, fields.at());
  }

  private List<Plug> plugs(Node node) {
    List<Plug> plugs = new ArrayList<>();
    if (!(node instanceof Node.Listing list) || list.items().isEmpty()) {
      problems.error(
          node.at(),
          node.saidOf("plugs"),
          "a list of plugs, such as [D0-31 to W0-31]",
          "Leave 'plugs' out for plugs wired by rule");
      return plugs;
    }
    for (Node item : list.items()) {
      List<Plug.Join> joins = joins(item);
      if (!joins.isEmpty()) {
        plugs.add(new Plug(plugs.size() + 1, joins));
      }
    }
    return plugs;
  }

  private List<Plug.Join> joins(Node plug) {
    List<Plug.Join> joins = new ArrayList<>();
    BitSet watched = new BitSet();
    for (Node.Text text : TextList.read(plug, "plugs", WANTED, problems).orElse(List.of())) {
      for (Plug.Join join : wires(text).orElse(List.of())) {
        if (watched.get(join.watch())) {
          problems.error(
              text.at(),
              "two wires at W" + join.watch() + ": two drives would meet there",
              "one wire to a watch; a drive may have several",
              "Divide it into two plugs, to be put on one after the other");
          return List.of();
        }
        watched.set(join.watch());
        joins.add(join);
      }
    }
    return joins;
  }

  private Optional<List<Plug.Join>> wires(Node.Text text) {
    Matcher form = WIRES.matcher(text.text().strip());
    if (!form.matches()) {
      problems.error(text.at(), text.described() + " names no wires of a plug", WANTED, "");
      return Optional.empty();
    }
    int drive = Integer.parseInt(form.group(1));
    int lastDrive = form.group(2) == null ? drive : Integer.parseInt(form.group(2));
    int watch = Integer.parseInt(form.group(3));
    int lastWatch = form.group(4) == null ? watch : Integer.parseInt(form.group(4));
    int wires = Math.abs(lastDrive - drive) + 1;
    int ends = Math.abs(lastWatch - watch) + 1;
    if (wires != ends) {
      problems.error(
          text.at(),
          text.described() + " joins " + wires + " of the drives to " + ends + " of the watches",
          "as many of one as of the other",
          "");
      return Optional.empty();
    }
    if (Math.max(drive, lastDrive) >= drives || Math.max(watch, lastWatch) >= watches) {
      boolean ofDrives = Math.max(drive, lastDrive) >= drives;
      problems.error(
          text.at(),
          (ofDrives ? "D" + Math.max(drive, lastDrive) : "W" + Math.max(watch, lastWatch))
              + " is not on this fixture",
          ofDrives ? "D0 to D" + (drives - 1) : "W0 to W" + (watches - 1),
          "Channels are counted from 0");
      return Optional.empty();
    }
    List<Plug.Join> joins = new ArrayList<>();
    for (int n = 0; n < wires; n++) {
      joins.add(
          new Plug.Join(
              drive + (lastDrive < drive ? -n : n), watch + (lastWatch < watch ? -n : n)));
    }
    return Optional.of(joins);
  }
}
