/** Settle times of a unit over many runs, per transition, line and direction. */
package cardproof.timing.history;
