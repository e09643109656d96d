package cardproof.card.wiring.review;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Finds {@link Network networks}. A link lies on a simple way from a node to the rail exactly when
 * it is in the same biconnected component as an edge put between the two (Hopcroft &amp; Tarjan
 * 1973 find these in linear time). For the way to the supply, each driven line has such an edge
 * too. The other rail is a dead end. Not thread safe.
 */
final class Networks {
  private static final int RAIL_VISIT = 0;
  private static final int NOT_VISITED = -1;

  private final Circuit circuit;
  private final int[][] linesAt;
  private final Map<Integer, Network> toSupply = new HashMap<>();
  private final Map<Integer, Network> toGround = new HashMap<>();
  private final int[] visit;
  private final int[] low;

  Networks(Circuit circuit, List<EdgeLine> lines) {
    this.circuit = circuit;
    this.linesAt = new int[circuit.nodes()][];
    this.visit = new int[circuit.nodes()];
    this.low = new int[circuit.nodes()];
    Arrays.fill(visit, NOT_VISITED);
    for (int line = 0; line < lines.size(); line++) {
      if (lines.get(line).driven()) {
        int node = circuit.lineNode(line);
        int[] before = linesAt[node] == null ? new int[0] : linesAt[node];
        linesAt[node] = Arrays.copyOf(before, before.length + 1);
        linesAt[node][before.length] = line;
      }
    }
  }

  Network toSupply(int node) {
    return toSupply.computeIfAbsent(node, n -> find(n, true));
  }

  Network toGround(int node) {
    return toGround.computeIfAbsent(node, n -> find(n, false));
  }

  private Network find(int node, boolean up) {
    if (circuit.isRail(node)) {
      return new Network(node, up, List.of(), new BitSet(), new BitSet());
    }
    Search search = new Search(up ? circuit.supply() : circuit.ground(), up);
    search.from(node);
    return search.network(node);
  }

  /** One depth-first walk, without recursion since chains of contacts may be long. */
  private final class Search {
    private final int rail;
    private final boolean up;
    private final List<Integer> path = new ArrayList<>();
    private final List<Integer> cameBy = new ArrayList<>();
    private final List<Integer> nextLink = new ArrayList<>();
    private final List<Integer> openedAt = new ArrayList<>();
    private final List<Integer> visited = new ArrayList<>();

    /** Links as their number, lines as -1 - their index. */
    private final List<Integer> edges = new ArrayList<>();

    Search(int rail, boolean up) {
      this.rail = rail;
      this.up = up;
    }

    void from(int start) {
      enter(start, Integer.MIN_VALUE);
      while (!path.isEmpty()) {
        int top = path.size() - 1;
        int node = path.get(top);
        int[] links = circuit.at(node);
        int next = nextLink.get(top);
        if (next == links.length) {
          leave(top, node);
        } else {
          nextLink.set(top, next + 1);
          follow(node, links[next], cameBy.get(top));
        }
      }
      visited.forEach(node -> visit[node] = NOT_VISITED);
    }

    private void enter(int node, int link) {
      visit[node] = visited.size() + 1;
      low[node] = visit[node];
      visited.add(node);
      openedAt.add(edges.size());
      if (link != Integer.MIN_VALUE) {
        edges.add(link);
      }
      if (up && linesAt[node] != null) {
        for (int line : linesAt[node]) {
          edges.add(-1 - line);
        }
        low[node] = RAIL_VISIT;
      }
      path.add(node);
      cameBy.add(link);
      nextLink.add(0);
    }

    private void follow(int node, int link, int cameByLink) {
      int other = circuit.link(link).other(node);
      if (link == cameByLink) {
        return;
      }
      if (other == rail) {
        edges.add(link);
        low[node] = RAIL_VISIT;
      } else if (circuit.isRail(other)) {
        return;
      } else if (visit[other] == NOT_VISITED) {
        enter(other, link);
      } else if (visit[other] < visit[node]) {
        edges.add(link);
        low[node] = Math.min(low[node], visit[other]);
      }
    }

    private void leave(int top, int node) {
      path.remove(top);
      cameBy.remove(top);
      nextLink.remove(top);
      int opened = openedAt.remove(top);
      if (top == 0) {
        return;
      }
      int above = path.get(top - 1);
      if (low[node] >= visit[above]) {
        edges.subList(opened, edges.size()).clear();
      }
      low[above] = Math.min(low[above], low[node]);
    }

    Network network(int node) {
      List<Integer> links = new ArrayList<>();
      BitSet relays = new BitSet();
      BitSet lines = new BitSet();
      for (int edge : edges) {
        if (edge < 0) {
          lines.set(-1 - edge);
          continue;
        }
        links.add(edge);
        if (circuit.link(edge).isContact()) {
          relays.set(circuit.link(edge).relay());
        }
      }
      return new Network(node, up, List.copyOf(links), relays, lines);
    }
  }
}
