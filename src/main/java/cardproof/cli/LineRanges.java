package cardproof.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Names of lines, neighbours of one bus joined: {@code CI, S[0] to S[7], S[9]}. */
final class LineRanges {
  private static final Pattern OF_A_BUS = Pattern.compile("(.+)\\[(\\d{1,6})]");

  private record Range(String first, String last, String bus, int end) {
    static Range of(String line) {
      Matcher name = OF_A_BUS.matcher(line);
      return name.matches()
          ? new Range(line, line, name.group(1), Integer.parseInt(name.group(2)))
          : new Range(line, line, "", -1);
    }

    boolean goesOnWith(Range next) {
      return !bus.isEmpty() && bus.equals(next.bus) && next.end == end + 1;
    }

    @Override
    public String toString() {
      return first.equals(last) ? first : first + " to " + last;
    }
  }

  private LineRanges() {}

  /**
   * @param lines in the order of the card
   */
  static String of(List<String> lines) {
    List<Range> ranges = new ArrayList<>();
    for (String line : lines) {
      Range next = Range.of(line);
      Range before = ranges.isEmpty() ? null : ranges.get(ranges.size() - 1);
      if (before != null && before.goesOnWith(next)) {
        ranges.set(ranges.size() - 1, new Range(before.first(), line, next.bus(), next.end()));
      } else {
        ranges.add(next);
      }
    }
    return String.join(", ", ranges.stream().map(Range::toString).toList());
  }
}
