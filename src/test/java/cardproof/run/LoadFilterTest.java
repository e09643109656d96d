package cardproof.run;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** What currents can say of loads that are spread by 10 %. */
class LoadFilterTest {
  /** TE Schrack PT data sheet: 192 ohm, 62.5 mA at 12 V. */
  private static final double COIL_MA = 62.5;

  private static final int LOADS = 20;

  /** Measurements of a card with these loads, a random half of them on at a time. */
  private static LoadFilter after(int vectors, long seed, double common, int... missing) {
    Random random = new Random(seed);
    double[] own = random.doubles(LOADS, 0.9, 1.1).map(x -> COIL_MA * x * common).toArray();
    for (int gone : missing) {
      own[gone] = 0;
    }
    LoadFilter filter = new LoadFilter(new int[LOADS], 1);
    for (int v = 0; v < vectors; v++) {
      double[] takes = new double[LOADS];
      double measured = 0;
      for (int i = 0; i < LOADS; i++) {
        boolean on = random.nextBoolean();
        takes[i] = on ? COIL_MA : 0;
        measured += on ? own[i] : 0;
      }
      filter.predict(takes);
      filter.learn(Math.round(measured));
    }
    return filter;
  }

  @Test
  void oneMeasurementOfManyCoilsSaysNothingOfOne() {
    LoadFilter filter = new LoadFilter(new int[LOADS], 1);
    double[] all = new double[LOADS];
    java.util.Arrays.fill(all, COIL_MA);
    filter.predict(all);
    // common tolerance alone is two coils here
    assertThat(filter.deviationMa()).isGreaterThan(1.9 * COIL_MA);
    filter.learn((LOADS - 1) * COIL_MA);
    for (int i = 0; i < LOADS; i++) {
      assertThat(filter.logMissing(i)).isLessThan(Math.log(1e6));
    }
  }

  @Test
  void aSoundCardRaisesNoAlarmHoweverWarm() {
    long first = new Random().nextLong();
    for (int unit = 0; unit < 200; unit++) {
      double common = unit % 2 == 0 ? 0.9 : 1.1;
      LoadFilter filter = after(1 + unit, first + unit, common);
      for (int i = 0; i < LOADS; i++) {
        assertThat(filter.logMissing(i)).as("seed " + (first + unit)).isLessThan(Math.log(1e6));
      }
    }
  }

  @Test
  void oneThatIsNotThereIsFoundAndNoOtherIsTakenForIt() {
    long first = new Random().nextLong();
    for (int unit = 0; unit < 200; unit++) {
      LoadFilter filter = after(100, first + unit, 0.95, 7);
      double best = filter.logMissing(7);
      assertThat(best).as("seed " + (first + unit)).isGreaterThan(Math.log(1e6) + Math.log(LOADS));
      for (int i = 0; i < LOADS; i++) {
        if (i != 7) {
          assertThat(filter.logMissing(i)).isLessThan(best - Math.log(100));
        }
      }
      assertThat(filter.logMissing(7, 3)).isLessThan(best);
    }
  }

  /** The ratio worked out here against both models run through on their own. */
  @Test
  void theRatioIsThatOfTwoModelsRunThrough() {
    double own = LoadFilter.OWN;
    double common = 0.1;
    double offset = 5;
    double noise = 1;
    double gain = 0.001 * COIL_MA;
    double variance =
        offset * offset
            + COIL_MA * COIL_MA * (own * own + common * common)
            + noise * noise
            + gain * gain;
    double measured = 3;
    double sound = -(measured - COIL_MA) * (measured - COIL_MA) / (2 * variance);
    double absent = -measured * measured / (2 * variance);
    LoadFilter filter = new LoadFilter(new int[1], noise);
    filter.predict(new double[] {COIL_MA});
    assertThat(filter.deviationMa())
        .isCloseTo(Math.sqrt(variance), org.assertj.core.data.Offset.offset(1e-9));
    filter.learn(measured);
    assertThat(filter.logMissing(0))
        .isCloseTo(absent - sound, org.assertj.core.data.Offset.offset(1e-6));
  }
}
