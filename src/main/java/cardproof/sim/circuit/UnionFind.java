package cardproof.sim.circuit;

/** Sets of numbers that are joined and never parted (Galler and Fischer, 1964). */
final class UnionFind {
  private final int[] parent;

  UnionFind(int count) {
    parent = new int[count];
    for (int i = 0; i < count; i++) {
      parent[i] = i;
    }
  }

  int find(int one) {
    int at = one;
    while (parent[at] != at) {
      parent[at] = parent[parent[at]];
      at = parent[at];
    }
    return at;
  }

  void join(int one, int other) {
    int a = find(one);
    int b = find(other);
    parent[Math.max(a, b)] = Math.min(a, b);
  }
}
