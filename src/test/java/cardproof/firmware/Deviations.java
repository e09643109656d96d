package cardproof.firmware;

import java.util.Arrays;

/** How far measured times lie from the true ones, in microseconds. */
final class Deviations {
  private double[] values = {};

  void add(double us) {
    values = Arrays.copyOf(values, values.length + 1);
    values[values.length - 1] = us;
  }

  int count() {
    return values.length;
  }

  /** The one below which this share of all lies, signs left out. */
  double share(double part) {
    double[] sizes = Arrays.stream(values).map(Math::abs).sorted().toArray();
    return sizes[(int) Math.ceil(part * sizes.length) - 1];
  }

  double worst() {
    return share(1);
  }

  @Override
  public String toString() {
    double[] rising = Arrays.stream(values).sorted().toArray();
    return String.format(
        "median %.1f us, 95 %% within %.1f, from %.1f to %.1f",
        rising[rising.length / 2], share(0.95), rising[0], rising[rising.length - 1]);
  }
}
