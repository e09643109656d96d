package cardproof.card.wiring.review;

import java.util.List;

/**
 * What one driven line has to feed.
 *
 * @param line its index
 * @param parts the coils, lamps and resistors it feeds with no contact between
 * @param milliamps their current
 * @param mostMilliamps with all that contacts could ever put on it besides: a bound, no sum that
 *     need occur
 */
public record LineLoad(
    int line, String name, List<String> parts, double milliamps, double mostMilliamps) {
  public LineLoad {
    parts = List.copyOf(parts);
  }
}
