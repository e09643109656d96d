package cardproof.timing.drift;

/**
 * What has become of one line and direction since its first runs.
 *
 * @param series its medians
 * @param baselineUs mean of the first runs
 * @param spreadUs deviation of a run from it, drawn towards that of the median line
 * @param ewmaUs the weighted mean after each run that came after the first ones
 * @param shiftUs the last weighted mean less the baseline
 * @param slopeUs a run, by Theil and Sen, over all runs
 * @param alarm whether the weighted mean ever lay beyond the limit twice running
 * @param lasts whether it did so in the last two runs; an alarm that does not has passed
 * @param slower whether it is getting slower: an alarm that lasts, a slope above nothing, and a
 *     shift of 1 ms or 10 % beyond what all lines shifted by
 */
public record Drift(
    Series series,
    double baselineUs,
    double spreadUs,
    double[] ewmaUs,
    double shiftUs,
    double slopeUs,
    boolean alarm,
    boolean lasts,
    boolean slower) {}
