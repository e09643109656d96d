/**
 * Failures that come and go: how often, in how many sessions, in bunches or not, and gone or not.
 */
package cardproof.timing.intermittent;
