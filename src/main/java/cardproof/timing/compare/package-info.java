/**
 * Runs before and after: which vectors changed their verdict, and which lines their settle times.
 */
package cardproof.timing.compare;
