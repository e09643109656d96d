package cardproof.link;

/** How the body of one type of frame is laid out. Stateless but for the numbers of channels. */
interface Format<M extends Message> {
  int NO_FIELD = -1;

  /** Bytes of the body of this message. */
  int length(M message);

  /**
   * Bytes that this body must have, as far as those that are there say; more than it has when it is
   * cut short.
   */
  int length(Body body);

  void put(M message, Body body);

  /** Reads a body that is long enough. */
  M get(Body body);

  /**
   * Offset of a field with bits that have no meaning and are lost in the message, or {@link
   * #NO_FIELD}.
   */
  default int unknownBits(Body body) {
    return NO_FIELD;
  }

  /** Offset of the first field with a value out of range, or {@link #NO_FIELD}. */
  default int badField(M message) {
    return NO_FIELD;
  }
}
