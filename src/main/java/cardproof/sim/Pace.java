package cardproof.sim;

/** How fast virtual time may pass. */
interface Pace {
  /** Returns when it may be this late on the virtual clock. */
  void await(long virtualNs);
}
