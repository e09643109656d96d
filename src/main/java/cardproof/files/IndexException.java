package cardproof.files;

/** An index that has no value. */
final class IndexException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  /**
   * @param found what is there, in words for a message
   */
  IndexException(String found) {
    super(found, null, false, false);
  }
}
