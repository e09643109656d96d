/** What a user asks for: steps, the patterns they stand for, and the vectors those become. */
package cardproof.plan;
