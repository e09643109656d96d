package cardproof.timing.compare;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** By how much runs differ. */
final class RunSpreadTest {
  private static List<RunTimes> runs(double... times) {
    List<RunTimes> runs = new ArrayList<>();
    for (double us : times) {
      RunTimes run = new RunTimes();
      run.add(MadeUpCard.line(0), true, 1, us);
      runs.add(run);
    }
    return runs;
  }

  private static double spread(double... times) {
    RunSpread spread = new RunSpread();
    spread.add(runs(times));
    return spread.us().orElseThrow();
  }

  private static double[] numAcc(double first, double low, double high) {
    return IntStream.range(0, 1001)
        .mapToDouble(i -> i == 0 ? first : i % 2 == 1 ? low : high)
        .toArray();
  }

  /**
   * NIST StRD, univariate summary statistics, NumAcc1, 3 and 4: certified standard deviations 1,
   * 0.1 and 0.1 of values that lose most of their digits in a careless sum. Data from memory.
   */
  @Test
  void deviationsAreThoseOfTheReferenceDataSets() {
    assertThat(spread(10_000_001, 10_000_003, 10_000_002)).isEqualTo(1);
    assertThat(spread(numAcc(1_000_000.2, 1_000_000.1, 1_000_000.3))).isCloseTo(0.1, within(1e-9));
    assertThat(spread(numAcc(10_000_000.2, 10_000_000.1, 10_000_000.3)))
        .isCloseTo(0.1, within(1e-8));
  }

  @Test
  void groupsAreNotMixedAndOneRunTellsNothing() {
    RunSpread spread = new RunSpread();
    spread.add(runs(20_000));
    assertThat(spread.us()).isEmpty();
    assertThat(spread.degrees()).isZero();
    spread.add(runs(20_000, 22_000));
    spread.add(runs(90_000, 92_000));
    assertThat(spread.us().orElseThrow()).isCloseTo(Math.sqrt(2) * 1_000, within(1e-6));
    assertThat(spread.degrees()).as("two groups of two").isEqualTo(2);
  }

  /** A transition that was not seen to settle in one of the runs is left out of all. */
  @Test
  void whatDidNotSettleSpeaksForNoSpread() {
    List<RunTimes> runs = runs(20_000, 21_000, 22_000);
    runs.get(1).add(MadeUpCard.line(0), true, 2, Double.POSITIVE_INFINITY);
    runs.get(0).add(MadeUpCard.line(0), true, 2, 50_000);
    runs.get(2).add(MadeUpCard.line(0), true, 2, 90_000);
    RunSpread spread = new RunSpread();
    spread.add(runs);
    assertThat(spread.us().orElseThrow()).isCloseTo(1_000, within(1e-6));
  }

  @Test
  void aGroupWithNothingInCommonHasNoSay() {
    List<RunTimes> unlike = runs(20_000, 21_000, 22_000);
    RunTimes other = new RunTimes();
    other.add(MadeUpCard.line(0), true, 9, 20_000);
    unlike.set(1, other);
    RunSpread spread = new RunSpread();
    spread.add(unlike);
    assertThat(spread.degrees()).isZero();
  }
}
