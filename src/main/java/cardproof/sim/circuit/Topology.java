package cardproof.sim.circuit;

import java.util.Arrays;
import java.util.BitSet;
import java.util.List;

/**
 * The wiring as arrays over <i>nodes</i>: nets that wires and sound fuses join are one node. Ground
 * is node 0 and the supply node 1; they are never one node, however they are joined. Built anew
 * when a fuse blows; the numbers of switches, loads and diodes stay. Immutable.
 */
final class Topology {
  static final int GROUND = 0;
  static final int SUPPLY = 1;
  static final int FIRST_NODE = 2;

  /** A load from this node to ground, to the supply, to another node; a diode at this node. */
  static final int LOAD_TO_GROUND = 1;

  static final int LOAD_TO_SUPPLY = 2;
  static final int LOAD_TO_NODE = 4;
  static final int DIODE = 8;

  /** A line of the card is this node. */
  static final int LINE = 16;

  final int nodes;
  final int[] nodeOfNet;
  final Rows nets;
  final int[] switchA;
  final int[] switchB;
  final int[] loadA;
  final int[] loadB;
  final double[] siemens;
  final int[] anode;
  final int[] cathode;
  final Rows switchesAt;
  final Rows loadsAt;
  final Rows diodesAt;

  /** Also the diodes that conduct only while a coil is switched off. */
  final Rows allDiodesAt;

  final int[] flags;
  final int[] nodeOfLine;
  final Rows linesAt;

  /** By entry of {@link #switchesAt}: the node at the other end. */
  final int[] beyond;

  /** Wires or fuses join the supply to ground. */
  final boolean alwaysShort;

  Topology(Elements parts, BitSet blownFuses) {
    int nets = parts.wiring.nets().size();
    UnionFind joined = new UnionFind(nets);
    int supply = parts.wiring.supply();
    int ground = parts.wiring.ground();
    boolean shorted = false;
    for (Elements.Between wire : parts.wires) {
      shorted |= join(joined, wire.first(), wire.second(), supply, ground);
    }
    for (int f = 0; f < parts.fuses.size(); f++) {
      if (!blownFuses.get(f)) {
        int first = parts.fuses.get(f).first();
        shorted |= join(joined, first, parts.fuses.get(f).second(), supply, ground);
      }
    }
    this.alwaysShort = shorted || parts.diodes.stream().anyMatch(d -> straight(d, joined, parts));
    this.nodeOfNet = new int[nets];
    this.nodes = number(joined, supply, ground);
    this.nets = Rows.of(nodes, nodeOfNet);
    this.nodeOfLine = parts.wiring.lineNets().stream().mapToInt(n -> nodeOfNet[n]).toArray();
    this.linesAt = Rows.of(nodes, nodeOfLine);
    this.switchA = ends(parts.switches, true);
    this.switchB = ends(parts.switches, false);
    this.anode = ends(parts.diodes, true);
    this.cathode = ends(parts.diodes, false);
    this.loadA = parts.loads.stream().mapToInt(load -> nodeOfNet[load.first()]).toArray();
    this.loadB = parts.loads.stream().mapToInt(load -> nodeOfNet[load.second()]).toArray();
    this.siemens = parts.loads.stream().mapToDouble(load -> 1 / load.ohms()).toArray();
    this.switchesAt = rows(switchA, switchB);
    this.loadsAt = rows(loadA, loadB);
    this.diodesAt = diodeRows();
    this.allDiodesAt = rows(anode, cathode);
    this.beyond = new int[switchesAt.item().length];
    for (int node = 0; node < nodes; node++) {
      for (int i = switchesAt.start()[node]; i < switchesAt.start()[node + 1]; i++) {
        int one = switchesAt.item()[i];
        beyond[i] = switchA[one] == node ? switchB[one] : switchA[one];
      }
    }
    this.flags = flags();
  }

  private static boolean join(UnionFind joined, int a, int b, int supply, int ground) {
    int low = joined.find(ground);
    int high = joined.find(supply);
    int x = joined.find(a);
    int y = joined.find(b);
    if (x == low && y == high || x == high && y == low) {
      return true;
    }
    joined.join(x, y);
    return false;
  }

  private static boolean straight(Elements.Between diode, UnionFind joined, Elements parts) {
    return joined.find(diode.first()) == joined.find(parts.wiring.supply())
        && joined.find(diode.second()) == joined.find(parts.wiring.ground());
  }

  private int number(UnionFind joined, int supply, int ground) {
    int[] nodeOfRoot = new int[nodeOfNet.length];
    Arrays.fill(nodeOfRoot, -1);
    nodeOfRoot[joined.find(ground)] = GROUND;
    nodeOfRoot[joined.find(supply)] = SUPPLY;
    int count = FIRST_NODE;
    for (int net = 0; net < nodeOfNet.length; net++) {
      int root = joined.find(net);
      if (nodeOfRoot[root] < 0) {
        nodeOfRoot[root] = count++;
      }
      nodeOfNet[net] = nodeOfRoot[root];
    }
    return count;
  }

  private int[] ends(List<Elements.Between> list, boolean first) {
    return list.stream().mapToInt(one -> nodeOfNet[first ? one.first() : one.second()]).toArray();
  }

  /** What joins a node to itself does nothing there, and has no place in its row. */
  private Rows rows(int[] first, int[] second) {
    int[] a = first.clone();
    int[] b = second.clone();
    for (int i = 0; i < a.length; i++) {
      if (a[i] == b[i]) {
        a[i] = -1;
        b[i] = -1;
      }
    }
    return Rows.ofEnds(nodes, a, b);
  }

  private Rows diodeRows() {
    int[] a = anode.clone();
    int[] b = cathode.clone();
    for (int d = 0; d < a.length; d++) {
      if (!mayConduct(d)) {
        b[d] = a[d];
      }
    }
    return rows(a, b);
  }

  /**
   * No node is ever below ground or above the supply, so a diode that leads away from ground or
   * into the supply, as one across a coil does, never conducts while the levels are what they are.
   */
  private boolean mayConduct(int diode) {
    return anode[diode] != GROUND && cathode[diode] != SUPPLY;
  }

  private int[] flags() {
    int[] all = new int[nodes];
    for (int load = 0; load < loadA.length; load++) {
      if (loadA[load] != loadB[load]) {
        all[loadA[load]] |= flagOf(loadB[load]);
        all[loadB[load]] |= flagOf(loadA[load]);
      }
    }
    for (int d = 0; d < anode.length; d++) {
      if (anode[d] != cathode[d] && mayConduct(d)) {
        all[anode[d]] |= DIODE;
        all[cathode[d]] |= DIODE;
      }
    }
    for (int node : nodeOfLine) {
      all[node] |= LINE;
    }
    return all;
  }

  /** The end of a load that is not at this node. */
  int otherEnd(int load, int node) {
    return loadA[load] == node ? loadB[load] : loadA[load];
  }

  private static int flagOf(int otherEnd) {
    return otherEnd == GROUND ? LOAD_TO_GROUND : otherEnd == SUPPLY ? LOAD_TO_SUPPLY : LOAD_TO_NODE;
  }
}
