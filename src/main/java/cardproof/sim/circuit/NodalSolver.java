package cardproof.sim.circuit;

import java.util.Arrays;

/**
 * Levels in a net of resistances and diodes between fixed levels, by nodal analysis. A diode is
 * off, or {@link DiodeModel#VOLTS} and {@link DiodeModel#OHMS} forward; all that stand wrong are
 * turned over together, up to {@link #ROUNDS} times, and after that one at a time, the first that
 * stands wrong, which comes to an end for every net of positive resistances (Murty, 1974, for the
 * linear complementarity problem with a P-matrix).
 *
 * <p>A place that nothing leads to is held at 0 by a leak of {@link #LEAK_SIEMENS}. Not thread
 * safe.
 */
final class NodalSolver {
  static final double LEAK_SIEMENS = 1e-9;
  static final int ROUNDS = 20;
  private static final int MOST_ROUNDS = 100_000;
  private static final double SLACK_VOLTS = 1e-9;
  private static final int FIXED = -1;

  private int places;
  private double[][] base = {};
  private double[][] work = {};
  private double[] level = {};
  private int diodes;
  private int[] anode = new int[8];
  private int[] cathode = new int[8];
  private double[] anodeVolts = new double[8];
  private double[] cathodeVolts = new double[8];
  private boolean[] on = new boolean[8];
  private int rounds;

  /** Starts anew with this many places of which the level is to be found. */
  void start(int count) {
    places = count;
    diodes = 0;
    if (base.length < count) {
      base = new double[count][count + 1];
      work = new double[count][count + 1];
      level = new double[count];
    }
    for (int i = 0; i < count; i++) {
      Arrays.fill(base[i], 0, count + 1, 0);
      base[i][i] = LEAK_SIEMENS;
    }
  }

  /** A resistance between two places. */
  void between(int one, int other, double siemens) {
    base[one][one] += siemens;
    base[other][other] += siemens;
    base[one][other] -= siemens;
    base[other][one] -= siemens;
  }

  /** A resistance from a place to a fixed level. */
  void toFixed(int place, double volts, double siemens) {
    base[place][place] += siemens;
    base[place][places] += siemens * volts;
  }

  /** A current into a place from nowhere. */
  void inject(int place, double amps) {
    base[place][places] += amps;
  }

  void diodeBetween(int from, int to) {
    addDiode(from, 0, to, 0);
  }

  void diodeFromFixed(double volts, int to) {
    addDiode(FIXED, volts, to, 0);
  }

  void diodeToFixed(int from, double volts) {
    addDiode(from, 0, FIXED, volts);
  }

  private void addDiode(int from, double fromVolts, int to, double toVolts) {
    if (diodes == anode.length) {
      anode = Arrays.copyOf(anode, 2 * diodes);
      cathode = Arrays.copyOf(cathode, 2 * diodes);
      anodeVolts = Arrays.copyOf(anodeVolts, 2 * diodes);
      cathodeVolts = Arrays.copyOf(cathodeVolts, 2 * diodes);
      on = Arrays.copyOf(on, 2 * diodes);
    }
    anode[diodes] = from;
    anodeVolts[diodes] = fromVolts;
    cathode[diodes] = to;
    cathodeVolts[diodes] = toVolts;
    on[diodes++] = false;
  }

  /** Levels by place; the array is used again by the next call. */
  double[] solve() {
    rounds = 0;
    do {
      if (++rounds > MOST_ROUNDS) {
        throw new IllegalStateException(diodes + " diodes never fall into place");
      }
      eliminate();
    } while (turnOver(rounds >= ROUNDS));
    return level;
  }

  /** How often all levels were worked out in the last {@link #solve}. */
  int rounds() {
    return rounds;
  }

  private boolean turnOver(boolean firstOnly) {
    boolean any = false;
    for (int d = 0; d < diodes; d++) {
      double over = across(d) - DiodeModel.VOLTS;
      if (on[d] ? over < -SLACK_VOLTS : over > SLACK_VOLTS) {
        on[d] = !on[d];
        any = true;
        if (firstOnly) {
          return true;
        }
      }
    }
    return any;
  }

  private double across(int d) {
    double from = anode[d] == FIXED ? anodeVolts[d] : level[anode[d]];
    double to = cathode[d] == FIXED ? cathodeVolts[d] : level[cathode[d]];
    return from - to;
  }

  private void eliminate() {
    for (int i = 0; i < places; i++) {
      System.arraycopy(base[i], 0, work[i], 0, places + 1);
    }
    for (int d = 0; d < diodes; d++) {
      if (on[d]) {
        stamp(d);
      }
    }
    for (int p = 0; p < places; p++) {
      double[] pivot = work[p];
      for (int r = p + 1; r < places; r++) {
        double factor = work[r][p] / pivot[p];
        if (factor != 0) {
          double[] row = work[r];
          for (int c = p; c <= places; c++) {
            row[c] -= factor * pivot[c];
          }
        }
      }
    }
    for (int r = places - 1; r >= 0; r--) {
      double sum = work[r][places];
      for (int c = r + 1; c < places; c++) {
        sum -= work[r][c] * level[c];
      }
      level[r] = sum / work[r][r];
    }
  }

  private void stamp(int d) {
    double siemens = 1 / DiodeModel.OHMS;
    int a = anode[d];
    int c = cathode[d];
    if (a != FIXED) {
      work[a][a] += siemens;
      work[a][places] += siemens * (DiodeModel.VOLTS + (c == FIXED ? cathodeVolts[d] : 0));
    }
    if (c != FIXED) {
      work[c][c] += siemens;
      work[c][places] += siemens * ((a == FIXED ? anodeVolts[d] : 0) - DiodeModel.VOLTS);
    }
    if (a != FIXED && c != FIXED) {
      work[a][c] -= siemens;
      work[c][a] -= siemens;
    }
  }
}
