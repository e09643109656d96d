/**
 * The statistics that comparisons, paces and drifts rest on: numbers in, numbers out, each with its
 * source. Distributions and tests are those of Apache Commons Statistics wherever it has them.
 */
package cardproof.timing.stats;
