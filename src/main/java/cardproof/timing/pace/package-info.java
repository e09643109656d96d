/** How long a card takes at most, transition by transition, and how sure that is. */
package cardproof.timing.pace;
