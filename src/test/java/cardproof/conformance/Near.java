package cardproof.conformance;

import static org.assertj.core.api.Assertions.assertThat;

/**
 * How near a time has to be, from what the fixture says of itself: a change is seen no sooner than
 * it came and no later than one blind time after.
 */
record Near(long earlierUs, long laterUs) {
  /** Rounding of two times to a clock that may tick every few microseconds. */
  private static final long CLOCK_US = 8;

  static Near of(Bench bench, Result result) {
    HelloR shape = bench.shape();
    long periodUs = (shape.periodNs() + 999) / 1000;
    long slackUs = periodUs + result.skewUs() + CLOCK_US;
    return new Near(slackUs, shape.blindUs() + slackUs);
  }

  void holds(String what, long actualUs, long wantedUs) {
    assertThat(actualUs).as(what).isBetween(wantedUs - earlierUs, wantedUs + laterUs);
  }

  /** A difference of two seen times. */
  void apart(String what, long actualUs, long wantedUs) {
    assertThat(actualUs).as(what).isBetween(wantedUs - laterUs, wantedUs + laterUs);
  }
}
