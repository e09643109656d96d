/**
 * What can be wrong with a card: the one model and the one grammar of fault names, and the list of
 * all single faults of a card. What a fault does to a simulated card is the simulation's business.
 */
package cardproof.card.fault;
