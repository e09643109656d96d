/** Settle times and what may be said about them, from the records of the bench log. */
package cardproof.timing;
