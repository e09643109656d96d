package cardproof.sim.circuit;

/** What a level is to a logic input: from 60 % of the supply, below 40 %, or between. */
public enum NetLevel {
  ZERO,
  ONE,
  WEAK
}
