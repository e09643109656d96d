package cardproof.card.wiring.review;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;

/**
 * Relays that feed one another, directly or through others, as one group (strongly connected
 * components, Tarjan 1972, without recursion).
 */
final class Groups {
  private final List<BitSet> feeders;
  private final int[] visit;
  private final int[] low;
  private final int[] next;
  private final boolean[] open;
  private final List<Integer> path = new ArrayList<>();
  private final List<Integer> unassigned = new ArrayList<>();
  private final List<int[]> groups = new ArrayList<>();
  private int visits;

  /**
   * @param feeders of each relay, by number
   */
  Groups(List<BitSet> feeders) {
    this.feeders = feeders;
    this.visit = new int[feeders.size()];
    this.low = new int[feeders.size()];
    this.next = new int[feeders.size()];
    this.open = new boolean[feeders.size()];
  }

  /** A group comes after all that feed it; relays within one ascend. */
  List<int[]> inOrder() {
    for (int relay = 0; relay < feeders.size(); relay++) {
      if (visit[relay] == 0) {
        walk(relay);
      }
    }
    return groups;
  }

  private void walk(int start) {
    enter(start);
    while (!path.isEmpty()) {
      int relay = path.get(path.size() - 1);
      int feeder = feeders.get(relay).nextSetBit(next[relay]);
      if (feeder < 0) {
        leave(relay);
      } else {
        next[relay] = feeder + 1;
        if (visit[feeder] == 0) {
          enter(feeder);
        } else if (open[feeder]) {
          low[relay] = Math.min(low[relay], visit[feeder]);
        }
      }
    }
  }

  private void enter(int relay) {
    visit[relay] = ++visits;
    low[relay] = visits;
    open[relay] = true;
    path.add(relay);
    unassigned.add(relay);
  }

  private void leave(int relay) {
    path.remove(path.size() - 1);
    if (!path.isEmpty()) {
      int above = path.get(path.size() - 1);
      low[above] = Math.min(low[above], low[relay]);
    }
    if (low[relay] == visit[relay]) {
      int first = unassigned.lastIndexOf(relay);
      List<Integer> members = unassigned.subList(first, unassigned.size());
      int[] group = members.stream().mapToInt(Integer::intValue).toArray();
      members.clear();
      Arrays.sort(group);
      for (int member : group) {
        open[member] = false;
      }
      groups.add(group);
    }
  }
}
