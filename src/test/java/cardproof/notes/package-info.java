/**
 * Holds the builder's notes, in firmware-notes, to their own sums, to the code and to the profiles.
 */
package cardproof.notes;
