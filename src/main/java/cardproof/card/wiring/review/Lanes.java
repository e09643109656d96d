package cardproof.card.wiring.review;

import cardproof.card.wiring.Terminal;
import java.util.Arrays;

/**
 * Sixty-four copies of a circuit at once, one in each bit of a long: which nodes have a way to the
 * supply or to a driven line, and which to ground, with relays in given states. Supply and ground
 * are never gone through. Not thread safe.
 *
 * <p>A way through a small resistor is weak: a plain way to the other rail overrules it, which is
 * how a contact across a coil behind a resistor lets it release.
 */
final class Lanes {
  static final long ALL = -1L;

  private final Circuit circuit;
  private final long[] operated;
  private final long[] driven;
  private final long[] high;
  private final long[] low;
  private final long[] weakHigh;
  private final long[] weakLow;
  private final int[] from;
  private final int[] to;
  private final int[] relay;
  private final boolean[] whenOperated;
  private final boolean[] oneWay;
  private final boolean[] weak;
  private final int[] stack;
  private final boolean[] waiting;

  Lanes(Circuit circuit) {
    this.circuit = circuit;
    this.operated = new long[circuit.relays().size()];
    this.driven = new long[circuit.wiring().lineNets().size()];
    int nodes = circuit.nodes();
    this.high = new long[nodes];
    this.low = new long[nodes];
    this.weakHigh = new long[circuit.hasWeakLinks() ? nodes : 0];
    this.weakLow = new long[circuit.hasWeakLinks() ? nodes : 0];
    this.stack = new int[nodes];
    this.waiting = new boolean[nodes];
    int links = circuit.links().size();
    this.from = new int[links];
    this.to = new int[links];
    this.relay = new int[links];
    this.whenOperated = new boolean[links];
    this.oneWay = new boolean[links];
    this.weak = new boolean[links];
    for (int l = 0; l < links; l++) {
      Link link = circuit.link(l);
      from[l] = link.from();
      to[l] = link.to();
      relay[l] = link.relay();
      whenOperated[l] = link.whenOperated();
      oneWay[l] = link.oneWay();
      weak[l] = link.weak();
    }
  }

  /** By relay: the lanes in which it is operated. To be written to. */
  long[] operated() {
    return operated;
  }

  /** By line: the lanes in which it is driven. To be written to. */
  long[] driven() {
    return driven;
  }

  /** Takes relays and lines as they now are; to be called before levels are asked for. */
  void spread() {
    Arrays.fill(high, 0);
    Arrays.fill(low, 0);
    high[circuit.supply()] = ALL;
    low[circuit.ground()] = ALL;
    for (int line = 0; line < driven.length; line++) {
      high[circuit.lineNode(line)] |= driven[line];
    }
    spread(high, true, false);
    spread(low, false, false);
    if (circuit.hasWeakLinks()) {
      System.arraycopy(high, 0, weakHigh, 0, high.length);
      System.arraycopy(low, 0, weakLow, 0, low.length);
      spread(weakHigh, true, true);
      spread(weakLow, false, true);
    }
  }

  private void spread(long[] reached, boolean up, boolean weakToo) {
    int stop = up ? circuit.ground() : circuit.supply();
    long[] against = up ? low : high;
    int waitingCount = 0;
    for (int node = 0; node < reached.length; node++) {
      if (reached[node] != 0) {
        waiting[node] = true;
        stack[waitingCount++] = node;
      }
    }
    while (waitingCount > 0) {
      int node = stack[--waitingCount];
      waiting[node] = false;
      if (node == stop) {
        continue;
      }
      for (int l : circuit.at(node)) {
        boolean forward = from[l] == node;
        if (weak[l] && !weakToo || oneWay[l] && forward != up) {
          continue;
        }
        int other = forward ? to[l] : from[l];
        long fresh = reached[node] & closed(l) & ~reached[other];
        if (weakToo) {
          fresh &= ~against[other];
        }
        if (fresh != 0) {
          reached[other] |= fresh;
          if (!waiting[other]) {
            waiting[other] = true;
            stack[waitingCount++] = other;
          }
        }
      }
    }
  }

  private long closed(int link) {
    if (relay[link] == Link.NO_RELAY) {
      return ALL;
    }
    return whenOperated[link] ? operated[relay[link]] : ~operated[relay[link]];
  }

  /** Lanes in which a node is at the supply's level. */
  long high(int node) {
    if (node == Terminal.NOT_WIRED) {
      return 0;
    }
    return circuit.hasWeakLinks() ? high[node] | weakHigh[node] & ~low[node] : high[node];
  }

  /** Lanes in which a node has a way to ground. */
  long low(int node) {
    if (node == Terminal.NOT_WIRED) {
      return 0;
    }
    return circuit.hasWeakLinks() ? low[node] | weakLow[node] & ~high[node] : low[node];
  }

  /** Lanes in which current flows through a load. */
  long fed(Load load) {
    return high(load.first()) & low(load.second()) | high(load.second()) & low(load.first());
  }

  /** Lanes in which supply and ground, or a driven line and ground, are joined by no load. */
  long shorted() {
    return high[circuit.ground()];
  }

  /**
   * Lets every relay follow its coil once, all together.
   *
   * @return lanes in which some relay moved
   */
  long round() {
    spread();
    long moved = 0;
    for (int r = 0; r < operated.length; r++) {
      long now = fed(circuit.coil(r));
      moved |= now ^ operated[r];
      operated[r] = now;
    }
    return moved;
  }
}
