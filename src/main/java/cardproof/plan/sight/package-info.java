/**
 * What vectors would notice of a driven line that is stuck and of two that are exchanged, by the
 * card's behaviour alone.
 */
package cardproof.plan.sight;
