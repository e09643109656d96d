package cardproof.files;

import cardproof.card.wiring.Spot;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Where something sits, {@code 12 mm, 30 mm}. In a repeat the number may be arithmetic in
 * parentheses: {@code (10 + 20*i) mm}.
 */
record SpotText(Coordinate x, Coordinate y) {
  private static final String WANTED =
      "two lengths from the lower left corner, such as 12 mm, 30 mm, or (10 + 20*i) mm, 30 mm";
  private static final Pattern COMPUTED = Pattern.compile("(\\(.*\\))\\s*(um|mm|cm)");
  private static final long FARTHEST_UM = 10_000_000;
  private static final double UM_PER_MM = 1000;

  /**
   * A number of units, computed or fixed.
   *
   * @param unitUm micrometres in a unit
   */
  record Coordinate(IndexExpression number, long unitUm) {
    double millimetres(RepeatValues values) {
      long value = number.value(values);
      if (value < 0 || value > FARTHEST_UM / unitUm) {
        throw new IndexException("sits " + value * (unitUm / UM_PER_MM) + " mm from the corner");
      }
      return value * unitUm / UM_PER_MM;
    }
  }

  static Optional<SpotText> read(Node node, String key, List<String> repeats, Problems problems) {
    Optional<List<Node.Text>> parts = TextList.read(node, key, WANTED, problems);
    if (parts.isEmpty()) {
      return Optional.empty();
    }
    if (parts.get().size() != 2) {
      problems.error(
          node.at(),
          "'"
              + key
              + "' is "
              + parts.get().size()
              + (parts.get().size() == 1 ? " length" : " lengths"),
          WANTED,
          "");
      return Optional.empty();
    }
    List<Coordinate> both = new ArrayList<>();
    parts.get().forEach(part -> coordinate(part, key, repeats, problems).ifPresent(both::add));
    return both.size() == 2
        ? Optional.of(new SpotText(both.get(0), both.get(1)))
        : Optional.empty();
  }

  private static Optional<Coordinate> coordinate(
      Node.Text text, String key, List<String> repeats, Problems problems) {
    Matcher computed = COMPUTED.matcher(text.text());
    if (computed.matches()) {
      long unitUm = Quantity.LENGTH.unit(computed.group(2));
      return IndexParser.read(text, 0, computed.end(1), repeats, problems)
          .map(number -> new Coordinate(number, unitUm));
    }
    OptionalLong um = Quantity.LENGTH.read(text, key, 0, FARTHEST_UM, problems);
    return um.isPresent()
        ? Optional.of(new Coordinate(new IndexExpression.Number(um.getAsLong()), 1))
        : Optional.empty();
  }

  /**
   * @throws IndexException where an index has no value
   */
  Spot spot(RepeatValues values) {
    return new Spot(x.millimetres(values), y.millimetres(values));
  }
}
