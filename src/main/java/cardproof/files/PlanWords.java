package cardproof.files;

import cardproof.card.Card;
import cardproof.text.Position;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;

/** Keeps apart the names that a plan gives: set words, procedures and their arguments. */
final class PlanWords {
  static final Pattern WORD = Pattern.compile("[A-Za-z_][A-Za-z0-9_-]*");

  private final Optional<Card> card;
  private final Problems problems;
  private final Map<String, Position> taken = new HashMap<>();

  PlanWords(Optional<Card> card, Problems problems) {
    this.card = card;
    this.problems = problems;
  }

  /** Takes the name of a set word, which expressions must be able to hold. */
  boolean claimSet(Node.Text name) {
    return new Texts(problems).busName(name, "a set word") && free(name, "a set word") && own(name);
  }

  boolean claimProcedure(Node.Text name) {
    return isWord(name, "a procedure") && free(name, "a procedure") && own(name);
  }

  /** Whether an argument may have this name. */
  boolean isArgument(Node.Text name) {
    return isWord(name, "an argument") && free(name, "an argument");
  }

  private boolean isWord(Node.Text name, String kind) {
    boolean good =
        WORD.matcher(name.text()).matches() && name.text().length() <= Texts.LONGEST_NAME;
    if (!good) {
      problems.error(
          name.at(),
          name.described() + " cannot be the name of " + kind,
          "at most " + Texts.LONGEST_NAME + " letters, digits, '_' and '-', the first one a letter",
          "");
    }
    return good;
  }

  private boolean free(Node.Text name, String kind) {
    String word = name.text();
    String other = Reserved.contains(word) ? "a word that plans use themselves" : ofCard(word);
    if (!other.isEmpty()) {
      problems.error(
          name.at(),
          name.described() + " is " + other + " and cannot be the name of " + kind,
          "a name of its own",
          "Choose another name");
    }
    return other.isEmpty();
  }

  private String ofCard(String word) {
    if (card.isEmpty() || card.get().scope().slotOf(word) < 0) {
      return "";
    }
    boolean bus = card.get().busIndex(word) >= 0;
    return (bus ? "a bus of card '" : "a state of card '") + card.get().name() + "'";
  }

  private boolean own(Node.Text name) {
    Position first = taken.putIfAbsent(name.text(), name.at());
    if (first != null) {
      problems.error(
          name.at(),
          "the name " + name.described() + " a second time; the first is at " + first,
          "a name of its own for every set word and procedure",
          "Rename one of them, or take it out");
    }
    return first == null;
  }
}
