package cardproof.cli;

import java.util.Optional;

/**
 * How a pace is to be measured and told.
 *
 * @param cycles power cycles
 * @param share of a run's settles that its longest is to be above
 * @param guardPercent added on top
 * @param receiverUs what the receiving card needs
 * @param times samples of each transition for a proof
 * @param transitions how many of the slowest, where somebody said so
 * @param json one object instead of text
 */
record PaceWishes(
    int cycles,
    double share,
    double guardPercent,
    long receiverUs,
    int times,
    Optional<Integer> transitions,
    boolean json) {}
