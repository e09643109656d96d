package cardproof.card.fault;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * The words that say what is wrong, blanks before (and after, where something follows) included.
 */
enum Verb {
  STUCK_AT(" stuck at "),
  EXCHANGED_WITH(" exchanged with "),
  BRIDGED_TO(" bridged to "),
  SLOW_BY(" slow by "),
  JOINT_MISSING(" joint missing"),
  NEVER_MAKES(" never makes"),
  WELDED(" welded"),
  COIL_OPEN(" coil open"),
  OPEN(" open"),
  SHORT(" short"),
  BACKWARDS(" backwards"),
  DEAD(" dead");

  static final String GROUND = "ground";
  static final String SUPPLY = "supply";

  /** A fault's name taken apart: what it is about, what is wrong, and the rest. */
  record Clause(String about, Verb verb, String rest) {}

  final String words;

  Verb(String words) {
    this.words = words;
  }

  static String rail(boolean supply) {
    return supply ? SUPPLY : GROUND;
  }

  static List<String> all() {
    return Arrays.stream(values()).map(verb -> verb.words.strip()).toList();
  }

  /** Where the words are in a name with single blanks, case aside; they never begin it. */
  static Optional<Clause> find(String name) {
    String small = name.toLowerCase(Locale.ROOT);
    for (Verb verb : values()) {
      boolean middle = verb.words.endsWith(" ");
      int at = middle ? small.indexOf(verb.words) : small.length() - verb.words.length();
      if (at > 0 && small.startsWith(verb.words, at)) {
        String rest = name.substring(at + verb.words.length());
        return Optional.of(new Clause(name.substring(0, at), verb, rest));
      }
    }
    return Optional.empty();
  }
}
