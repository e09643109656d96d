/** Settle times of one unit over its runs: whether a line is getting slower. */
package cardproof.timing.drift;
