package cardproof.card.wiring.review;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/**
 * A chain of relays of which each moves the next, kept as its last link and what comes before it,
 * so that long ones that begin alike share their beginning. Immutable.
 */
final class Trail {
  static final Trail NONE = new Trail(null, new int[0], Link.NO_RELAY, 0);

  private final Trail before;
  private final int[] circle;
  private final int last;
  private final int stages;

  private Trail(Trail before, int[] circle, int last, int stages) {
    this.before = before;
    this.circle = circle;
    this.last = last;
    this.stages = stages;
  }

  /** Of equals the first. */
  static Trail longer(Trail one, Trail other) {
    return other.stages > one.stages ? other : one;
  }

  /** Of equals the first. */
  static Trail shorter(Trail one, Trail other) {
    return other.stages < one.stages ? other : one;
  }

  /**
   * Goes on through all relays of a circle, one stage each.
   *
   * @param last the one of them to end with
   */
  Trail then(int[] circle, int last) {
    return new Trail(this, circle, last, stages + circle.length);
  }

  /** No more than so many stages of its end. */
  Trail tail(int most) {
    return stages <= most ? this : new Trail(before, circle, last, most);
  }

  int stages() {
    return stages;
  }

  /** {@link Link#NO_RELAY} where there is none. */
  int last() {
    return last;
  }

  /** As many as there are stages. */
  List<Integer> relays() {
    List<Integer> backwards = new ArrayList<>(stages);
    int most = stages;
    for (Trail trail = this; trail != null && backwards.size() < most; trail = trail.before) {
      most = Math.min(most, backwards.size() + trail.stages);
      trail.addTo(backwards, most);
    }
    Collections.reverse(backwards);
    return List.copyOf(backwards);
  }

  private void addTo(List<Integer> backwards, int most) {
    if (backwards.size() < most) {
      backwards.add(last);
    }
    for (int i = circle.length - 1; i >= 0 && backwards.size() < most; i--) {
      if (circle[i] != last) {
        backwards.add(circle[i]);
      }
    }
  }
}
