package cardproof.sim.line;

/**
 * Bytes under way, as a rule one frame with its ending zero.
 *
 * @param bytes not to be changed
 * @param atNs when they are at the place that is looked at
 */
record Piece(byte[] bytes, long atNs) {
  Piece with(byte[] others) {
    return new Piece(others, atNs);
  }

  Piece at(long otherNs) {
    return new Piece(bytes, otherNs);
  }
}
