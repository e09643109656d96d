package cardproof.files;

import java.util.Optional;
import java.util.regex.Pattern;

/** Scalars that stay text: names, titles, words out of a fixed set. */
final class Texts {
  static final int LONGEST_TITLE = 200;
  static final int LONGEST_NAME = 40;

  private static final Pattern BUS_NAME = Pattern.compile("[A-Za-z_][A-Za-z0-9_]*");
  private static final Pattern BOARD_NAME = Pattern.compile("[ -~]{1,31}");
  private static final Pattern CARD_NAME = Pattern.compile("[A-Za-z][A-Za-z0-9_-]*");

  private final Problems problems;

  Texts(Problems problems) {
    this.problems = problems;
  }

  /**
   * @param key under which the node stands
   * @param wanted what may stand there
   */
  Optional<Node.Text> text(Node node, String key, String wanted) {
    if (node instanceof Node.Text text && !text.text().isBlank()) {
      return Optional.of(text);
    }
    problems.error(node.at(), node.saidOf(key), wanted, "");
    return Optional.empty();
  }

  /** One line for people to read. */
  Optional<String> title(Node node, String key) {
    Optional<Node.Text> text = text(node, key, "a line of text");
    if (text.isEmpty()) {
      return Optional.empty();
    }
    String title = text.get().text().strip();
    if (title.codePoints().anyMatch(Character::isISOControl)) {
      problems.error(
          node.at(), "'" + key + "' has line ends or control characters in it", "one line", "");
      return Optional.empty();
    }
    int length = title.codePointCount(0, title.length());
    if (length > LONGEST_TITLE) {
      problems.error(
          node.at(),
          "'" + key + "' has " + length + " characters",
          "at most " + LONGEST_TITLE,
          "Put the rest in a comment behind #");
      return Optional.empty();
    }
    return Optional.of(title);
  }

  /** A board's name travels in frames, which leave it 31 bytes of printable ASCII. */
  Optional<String> boardName(Node node) {
    Optional<String> name = title(node, "fixture");
    if (name.isPresent() && !BOARD_NAME.matcher(name.get()).matches()) {
      problems.error(
          node.at(),
          "'" + name.get() + "' cannot be the name of a fixture",
          "at most 31 letters, digits and signs of plain ASCII",
          "Put the rest under 'title'");
      return Optional.empty();
    }
    return name;
  }

  Optional<String> cardName(Node node) {
    return text(node, "card", "the card's name, such as sum")
        .filter(
            text -> named(text, CARD_NAME, "a card", "a letter, then letters, digits, '_' and '-'"))
        .map(Node.Text::text);
  }

  /** Like a card's, for it is used as one. */
  Optional<String> pairName(Node node) {
    return text(node, "pair", "the pair's name, such as hour")
        .filter(
            text -> named(text, CARD_NAME, "a pair", "a letter, then letters, digits, '_' and '-'"))
        .map(Node.Text::text);
  }

  /** Whether a bus or a state may have this name. */
  boolean busName(Node.Text name, String kind) {
    return named(name, BUS_NAME, kind, "letters, digits and '_', the first one no digit");
  }

  private boolean named(Node.Text text, Pattern pattern, String kind, String wanted) {
    String name = text.text();
    if (!pattern.matcher(name).matches()) {
      problems.error(text.at(), text.described() + " cannot be the name of " + kind, wanted, "");
      return false;
    }
    if (name.length() > LONGEST_NAME) {
      problems.error(
          text.at(),
          "this name has " + name.length() + " characters",
          "at most " + LONGEST_NAME,
          "");
      return false;
    }
    return true;
  }
}
