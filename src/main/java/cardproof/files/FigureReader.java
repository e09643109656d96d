package cardproof.files;

import cardproof.card.wiring.Figure;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/** A time of a data sheet: {@code {typical: 15 ms}}, {@code {most: 20 ms}} or {@code 15 ms}. */
final class FigureReader {
  static final List<String> KEYS = List.of("typical", "most");
  private static final long LONGEST_US = 10_000_000;

  private final Problems problems;

  FigureReader(Problems problems) {
    this.problems = problems;
  }

  Optional<Figure> read(Node node, String key, long leastUs) {
    if (node instanceof Node.Text) {
      return time(node, key, leastUs).map(Figure::typical);
    }
    int before = problems.count();
    Optional<Fields> fields = Fields.of(node, "'" + key + "'", KEYS, problems);
    // where a key is not known, it is not missing as well
    return fields
        .filter(known -> problems.count() == before)
        .flatMap(known -> stated(known, key, leastUs));
  }

  private Optional<Figure> stated(Fields fields, String key, long leastUs) {
    if (fields.has("typical") == fields.has("most")) {
      problems.error(
          fields.at(),
          "'" + key + "' has " + (fields.has("most") ? "two times" : "no time"),
          "either typical: 15 ms or most: 20 ms, as the data sheet states it",
          "");
      return Optional.empty();
    }
    return fields.has("typical")
        ? time(fields.get("typical").orElseThrow(), "typical", leastUs).map(Figure::typical)
        : time(fields.get("most").orElseThrow(), "most", leastUs).map(Figure::most);
  }

  private Optional<Long> time(Node node, String key, long leastUs) {
    OptionalLong us = Quantity.TIME.read(node, key, leastUs, LONGEST_US, problems);
    return us.isPresent() ? Optional.of(us.getAsLong()) : Optional.empty();
  }
}
