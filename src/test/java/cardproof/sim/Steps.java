package cardproof.sim;

import cardproof.link.Step;
import java.util.BitSet;

/** Steps for the tests: plain ones of 400 ms with 65 ms of quiet, changed one thing at a time. */
record Steps(Step step) {
  static Steps number(int number) {
    BitSet none = new BitSet();
    return new Steps(
        new Step(
            number, false, false, false, 350_000, 400_000, 65_000, 0, none, none, none, none,
            none));
  }

  Steps drive(long level, int drives) {
    return with(
        step.gate(), step.audit(), set(level), RawHost.all(drives), step.expect(), step.care());
  }

  Steps expect(long expect, long care) {
    return with(step.gate(), step.audit(), step.level(), step.enable(), set(expect), set(care));
  }

  Steps gated() {
    return with(true, step.audit(), step.level(), step.enable(), step.expect(), step.care());
  }

  Steps audited() {
    return with(step.gate(), true, step.level(), step.enable(), step.expect(), step.care());
  }

  Steps times(long limitUs, long watchUs, long quietUs) {
    return new Steps(
        new Step(
            step.number(),
            step.gate(),
            step.audit(),
            step.dwell(),
            limitUs,
            watchUs,
            quietUs,
            step.dwellUs(),
            step.level(),
            step.enable(),
            step.expect(),
            step.care(),
            step.still()));
  }

  Steps dwell(long dwellUs) {
    return new Steps(
        new Step(
            step.number(),
            step.gate(),
            step.audit(),
            true,
            step.limitUs(),
            step.watchUs(),
            step.quietUs(),
            dwellUs,
            step.level(),
            step.enable(),
            step.expect(),
            step.care(),
            step.still()));
  }

  Steps still(long still) {
    return new Steps(
        new Step(
            step.number(),
            step.gate(),
            step.audit(),
            step.dwell(),
            step.limitUs(),
            step.watchUs(),
            step.quietUs(),
            step.dwellUs(),
            step.level(),
            step.enable(),
            step.expect(),
            step.care(),
            set(still)));
  }

  private Steps with(
      boolean gate, boolean audit, BitSet level, BitSet enable, BitSet expect, BitSet care) {
    return new Steps(
        new Step(
            step.number(),
            gate,
            audit,
            step.dwell(),
            step.limitUs(),
            step.watchUs(),
            step.quietUs(),
            step.dwellUs(),
            level,
            enable,
            expect,
            care,
            step.still()));
  }

  static BitSet set(long bits) {
    return BitSet.valueOf(new long[] {bits});
  }

  static long bits(BitSet set) {
    return set.isEmpty() ? 0 : set.toLongArray()[0];
  }
}
