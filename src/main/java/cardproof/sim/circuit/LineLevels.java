package cardproof.sim.circuit;

import java.util.BitSet;
import java.util.function.IntConsumer;

/**
 * What a fixture makes of the level of each line: 1 from 60 % of the card's supply, 0 below 40 %,
 * and between the two what it was before, marked weak. Not thread safe.
 */
final class LineLevels {
  static final double ONE_FROM = 0.6;
  static final double ZERO_BELOW = 0.4;
  private static final double SLACK = 1e-9;

  private final double oneFrom;
  private final double zeroBelow;
  private final BitSet ones = new BitSet();
  private final BitSet weak = new BitSet();
  private final BitSet watched;
  private long weakCount;
  private IntConsumer changed = line -> {};

  LineLevels(double supplyVolts, BitSet watched) {
    this.oneFrom = ONE_FROM * supplyVolts - SLACK;
    this.zeroBelow = ZERO_BELOW * supplyVolts - SLACK;
    this.watched = (BitSet) watched.clone();
  }

  void onChange(IntConsumer listener) {
    changed = listener;
  }

  boolean level(int line) {
    return ones.get(line);
  }

  /** Lines between the two levels now. Not to be changed. */
  BitSet weak() {
    return weak;
  }

  /** How often a watched line came to stand between the two levels. */
  long weakCount() {
    return weakCount;
  }

  NetLevel of(double volts) {
    return volts >= oneFrom ? NetLevel.ONE : volts < zeroBelow ? NetLevel.ZERO : NetLevel.WEAK;
  }

  void update(Nets nets) {
    Rows rows = nets.topology.linesAt;
    for (int i = 0; i < nets.changedCount; i++) {
      int node = nets.changed[i];
      if ((nets.topology.flags[node] & Topology.LINE) == 0) {
        continue;
      }
      for (int l = rows.start()[node], end = rows.start()[node + 1]; l < end; l++) {
        update(rows.item()[l], nets.volts[node], nets.label[node] == Label.SHORT);
      }
    }
  }

  /** All lines, those too whose node stands where it stood. */
  void updateAll(Nets nets) {
    int[] nodeOfLine = nets.topology.nodeOfLine;
    for (int line = 0; line < nodeOfLine.length; line++) {
      int node = nodeOfLine[line];
      update(line, nets.volts[node], nets.label[node] == Label.SHORT);
    }
  }

  private void update(int line, double volts, boolean shorted) {
    NetLevel now = shorted ? NetLevel.WEAK : of(volts);
    if (now == NetLevel.WEAK) {
      weakCount += watched.get(line) && !weak.get(line) ? 1 : 0;
      weak.set(line);
      return;
    }
    weak.clear(line);
    if (ones.get(line) != (now == NetLevel.ONE)) {
      ones.flip(line);
      changed.accept(line);
    }
  }
}
