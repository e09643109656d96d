package cardproof.files;

/** An index that has no value. */
final class IndexException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  /**
   * @param does what the index does, in words that follow its text in a message
   */
  IndexException(String does) {
    super(does, null, false, false);
  }
}
