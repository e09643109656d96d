package cardproof.files;

import java.util.Set;

/** Words that mean something of their own in plans, and so cannot be given to anything else. */
final class Reserved {
  private static final Set<String> WORDS =
      Set.of(
          "x",
          "released",
          "all",
          "gray",
          "walking-ones",
          "walking-zeros",
          "checkerboard",
          "carry-chain",
          "counting-codes",
          "constant-weight",
          "pair-tour",
          "march",
          "random",
          "range",
          "list",
          "by",
          "seed",
          "true",
          "false");

  private Reserved() {}

  static boolean contains(String name) {
    return WORDS.contains(name);
  }
}
