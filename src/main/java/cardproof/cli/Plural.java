package cardproof.cli;

/** Counts with their noun. */
final class Plural {
  private Plural() {}

  /** {@code 1 vector}, {@code 2 vectors}. */
  static String of(long count, String noun) {
    return count + " " + noun + (count == 1 ? "" : "s");
  }
}
