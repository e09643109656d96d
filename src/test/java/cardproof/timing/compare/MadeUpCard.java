package cardproof.timing.compare;

import cardproof.log.LineName;
import java.util.List;
import java.util.SplittableRandom;

/**
 * A card whose settle times are drawn, to see how often what is said of them is true. Twelve lines
 * in two directions; each transition of a line waits for some relays one after the other, or for
 * the slowest of them. A relay has a time of its own, its runs differ, and so do its operations;
 * the last one bounces.
 */
final class MadeUpCard {
  private static final int LINES = 12;
  private static final double OPERATE_US = 9_000;

  /**
   * How the times come about.
   *
   * @param series whether relays wait for one another, and are not passed by the slowest alone
   * @param runUs deviation of one relay from run to run, beside what all relays of a run share
   * @param sharedUs deviation that all relays of a run share
   * @param scatterUs deviation from operation to operation
   * @param bounceUs mean of the last relay's bounce
   */
  record Scenario(
      boolean series, double runUs, double sharedUs, double scatterUs, double bounceUs) {}

  private final Scenario scenario;
  private final SplittableRandom random;
  private final double[] relayUs = new double[2 * LINES];
  private final double[] delayUs = new double[2 * LINES];
  private final int[][][] waitsFor;

  /** Transitions of a line and direction: the relays that each waits for. */
  MadeUpCard(Scenario scenario, int transitions, SplittableRandom random) {
    this.scenario = scenario;
    this.random = random;
    for (int relay = 0; relay < relayUs.length; relay++) {
      relayUs[relay] = OPERATE_US + 1_500 * random.nextGaussian();
    }
    waitsFor = new int[2 * LINES][transitions][];
    for (int way = 0; way < 2 * LINES; way++) {
      for (int t = 0; t < transitions; t++) {
        int chain = 1 + random.nextInt(way / 2 + 1);
        waitsFor[way][t] = new int[chain];
        for (int i = 0; i < chain; i++) {
          waitsFor[way][t][i] = 2 * (way / 2 - i) + way % 2;
        }
      }
    }
  }

  /** Makes a line slower from now on in one direction, whatever it waits for. */
  void slow(int line, boolean endsHigh, double byUs) {
    delayUs[2 * line + (endsHigh ? 1 : 0)] += byUs;
  }

  static LineName line(int line) {
    return new LineName(line, "S", line, "S" + line, "J1." + (line + 1), false, true);
  }

  /** Adds a run to some times. */
  void run(List<RunTimes> each) {
    double sharedUs = scenario.sharedUs() * random.nextGaussian();
    double[] nowUs = new double[relayUs.length];
    for (int relay = 0; relay < relayUs.length; relay++) {
      nowUs[relay] = relayUs[relay] + sharedUs + scenario.runUs() * random.nextGaussian();
    }
    for (int way = 0; way < waitsFor.length; way++) {
      for (int t = 0; t < waitsFor[way].length; t++) {
        double us = delayUs[way] + time(waitsFor[way][t], nowUs);
        for (RunTimes times : each) {
          times.add(line(way / 2), way % 2 == 1, t, us);
        }
      }
    }
  }

  private double time(int[] relays, double[] nowUs) {
    double us = 0;
    for (int relay : relays) {
      double one = nowUs[relay] + scenario.scatterUs() * random.nextGaussian();
      us = scenario.series() ? us + one : Math.max(us, one);
    }
    return us - scenario.bounceUs() * Math.log(1 - random.nextDouble());
  }
}
