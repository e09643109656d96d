package cardproof.bits;

/** As much of a user's text as a message can carry. */
final class Excerpt {
  private static final int MAX_CHARS = 60;

  private Excerpt() {}

  static String of(String text) {
    return text.length() <= MAX_CHARS ? text : text.substring(0, MAX_CHARS) + "...";
  }
}
