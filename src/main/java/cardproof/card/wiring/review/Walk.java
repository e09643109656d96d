package cardproof.card.wiring.review;

import java.util.BitSet;
import java.util.function.BiFunction;

/** Finds the longest trail to each relay of a block over all its phases. Not thread safe. */
final class Walk {
  private final Trail[] to;
  private final Trail[] now;
  private final Trail[] longest;
  private final BitSet proved = new BitSet();

  /**
   * @param to by relay, null until its first block has been gone through; of several blocks the
   *     shortest counts, since each is a bound, but one without circles before one with
   */
  Walk(Trail[] to) {
    this.to = to;
    this.now = new Trail[to.length];
    this.longest = new Trail[to.length];
  }

  /**
   * @param before the longest trail to what feeds a circle, given the trails in the same phase
   */
  void through(Block block, BiFunction<Phases.Circle, Trail[], Trail> before) {
    for (int relay : block.relays()) {
      longest[relay] = Trail.NONE;
    }
    for (int phase = 0; phase < block.phases().count(); phase++) {
      for (Phases.Circle circle : block.phases().circles(phase)) {
        Trail first = before.apply(circle, now);
        for (int relay : circle.relays()) {
          now[relay] = first.then(circle.relays(), relay);
          longest[relay] = Trail.longer(longest[relay], now[relay]);
        }
      }
    }
    boolean sure = !block.phases().haveCircles();
    for (int relay : block.relays()) {
      if (to[relay] == null || sure && !proved.get(relay)) {
        to[relay] = longest[relay];
      } else if (sure || !proved.get(relay)) {
        to[relay] = Trail.shorter(to[relay], longest[relay]);
      }
      proved.set(relay, proved.get(relay) || sure);
    }
  }
}
