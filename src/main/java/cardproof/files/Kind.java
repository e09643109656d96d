package cardproof.files;

import java.util.Arrays;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** The kinds of file, told apart by the key that each must have. */
enum Kind {
  PLAN("plan", "a plan", "plan: bring-up of a sum card"),
  FIXTURE("fixture", "a fixture profile", "fixture: plain 32+32 board"),
  PROCEDURES("procedures-of", "shared procedures", "procedures-of: the registers"),
  RELAY_TYPES("relay-types", "a library of relay types", "relay-types: relays of the cards"),
  PAIR("pair", "a pair of cards", "pair: hour"),
  /** Last, since a plan names its card under the same key. */
  CARD("card", "a card", "card: sum");

  private final String key;
  private final String words;
  private final String example;

  Kind(String key, String words, String example) {
    this.key = key;
    this.words = words;
    this.example = example;
  }

  /** Whether the file names itself as of this kind. */
  boolean names(Node root) {
    return root instanceof Node.Mapping map
        && map.entries().stream().anyMatch(entry -> entry.key().text().equals(key));
  }

  /** The tree, if it may be of this kind; a file of another kind gets that one problem alone. */
  Optional<Node> check(Node root, Problems problems) {
    if (!(root instanceof Node.Mapping map)) {
      problems.error(
          root.at(),
          "the file holds " + root.described() + " and no keys",
          words + ", which begins with a key such as " + example,
          "");
      return Optional.empty();
    }
    for (Kind kind : values()) {
      if (map.entries().stream().anyMatch(entry -> entry.key().text().equals(kind.key))) {
        if (kind == this) {
          break;
        }
        problems.error(root.at(), "this file describes " + kind.words, words, hint(kind));
        return Optional.empty();
      }
    }
    return Optional.of(root);
  }

  /**
   * Whether it is a pair, or has a card's key and neither another kind's nor steps, which are a
   * plan's.
   */
  static boolean looksLikeCard(Node root) {
    if (!(root instanceof Node.Mapping map)) {
      return false;
    }
    if (PAIR.names(root) && !PLAN.names(root)) {
      return true;
    }
    Set<String> keys =
        map.entries().stream().map(entry -> entry.key().text()).collect(Collectors.toSet());
    return keys.contains(CARD.key)
        && !keys.contains("steps")
        && Arrays.stream(values()).noneMatch(kind -> kind != CARD && keys.contains(kind.key));
  }

  private String hint(Kind found) {
    if (found == PROCEDURES) {
      return "A plan reads it by 'include'";
    }
    if (found == RELAY_TYPES) {
      return "A card names it under 'relay-types' of its 'wiring'";
    }
    return this == CARD ? "A plan names the file of its card under 'card'" : "Name another file";
  }
}
