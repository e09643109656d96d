package cardproof.timing.drift;

import cardproof.log.LineName;
import java.util.List;

/**
 * One line and direction over runs, always in the same transition, its probe.
 *
 * @param line as the last run names it
 * @param endsHigh the direction
 * @param transition name of the probe
 * @param vector a vector of it, in the last of the runs
 * @param points by run, the oldest first
 */
public record Series(
    LineName line, boolean endsHigh, long transition, long vector, List<Point> points) {
  public Series {
    points = List.copyOf(points);
  }

  /** {@code rising} or {@code falling}. */
  public String direction() {
    return endsHigh ? "rising" : "falling";
  }

  double[] mediansUs() {
    return points.stream().mapToDouble(Point::medianUs).toArray();
  }
}
