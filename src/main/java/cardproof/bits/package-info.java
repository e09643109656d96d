/**
 * Words of up to 64 bits in three states (0, 1 and unknown), literals, and the expression language
 * in which a card's behaviour is written.
 *
 * <p>A word is two planes of 64 bits: {@code value}, and {@code unknown} with a 1 for each bit that
 * is x. Where a bit is unknown its value bit is 0. Every function here is exact on known bits and
 * never claims to know a bit that could differ.
 */
package cardproof.bits;
