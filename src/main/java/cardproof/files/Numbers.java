package cardproof.files;

import cardproof.bits.Literal;
import cardproof.bits.LiteralException;
import cardproof.bits.WordText;
import java.util.Optional;
import java.util.OptionalLong;

/** Scalars that are numbers: counts, and words for a bus. */
final class Numbers {
  private final Problems problems;
  private final Texts texts;
  private final SetNames setNames;

  /** Numbers as they are written. */
  Numbers(Problems problems) {
    this(problems, new SetNames());
  }

  /** Numbers as they are written, or as they were set. */
  Numbers(Problems problems, SetNames setNames) {
    this.setNames = setNames;
    this.problems = problems;
    this.texts = new Texts(problems);
  }

  /** A count from {@code least} to {@code most}, of which neither is negative. */
  OptionalLong count(Node node, String key, long least, long most) {
    String wanted =
        "a whole number from " + least + (most == Long.MAX_VALUE ? " up" : " to " + most);
    Optional<Literal> literal = texts.text(node, key, wanted).flatMap(text -> known(text, wanted));
    if (literal.isEmpty()) {
      return OptionalLong.empty();
    }
    long count = literal.get().value();
    if (count < 0 || count < least || count > most) {
      problems.error(node.at(), "'" + key + "' is " + Long.toUnsignedString(count), wanted, "");
      return OptionalLong.empty();
    }
    return OptionalLong.of(count);
  }

  /**
   * A number as written.
   *
   * @param wanted for what it is wanted, where it cannot be read
   */
  Optional<Literal> literal(Node.Text text, String wanted) {
    Optional<Literal> set = setNames.literal(text.text());
    if (set.isPresent()) {
      return set;
    }
    if (setNames.isList(text.text())) {
      problems.error(
          text.at(),
          text.described() + " is a list of numbers",
          wanted.isEmpty() ? "one number" : wanted,
          "Lists are for 'each'");
      return Optional.empty();
    }
    try {
      return Optional.of(Literal.parse(text.text().strip()));
    } catch (LiteralException bad) {
      problems.error(
          text.at(),
          text.described() + " is no number: " + bad.found(),
          wanted.isEmpty() ? bad.wanted() : wanted,
          next(text.text().strip(), sentence(bad.next())));
      return Optional.empty();
    }
  }

  private String next(String text, String otherwise) {
    String next = ForeignNumber.next(text, setNames.hint(text));
    return next.isEmpty() ? otherwise : next;
  }

  /** A number with no bit unknown. */
  Optional<Literal> known(Node.Text text, String wanted) {
    return literal(text, wanted)
        .filter(
            literal -> {
              if (literal.unknown() != 0) {
                problems.error(
                    text.at(),
                    text.described() + " leaves bits open (x)",
                    wanted.isEmpty() ? "0 or 1 for every bit that is driven" : wanted,
                    "x means 'do not care' and belongs in what is expected");
              }
              return literal.unknown() == 0;
            });
  }

  /** A number with no bit unknown that fits a width. */
  OptionalLong word(Node.Text text, int width, String of) {
    Optional<Literal> literal = known(text, "");
    return literal.isPresent() && fits(text, literal.get(), width, of)
        ? OptionalLong.of(literal.get().value())
        : OptionalLong.empty();
  }

  /** Whether a number's bits, unknown ones not counted, fit; says so where they do not. */
  boolean fits(Node.Text text, Literal literal, int width, String of) {
    long mask = -1L >>> (64 - width);
    if ((literal.value() & ~mask) == 0) {
      return true;
    }
    int needed = 64 - Long.numberOfLeadingZeros(literal.value());
    problems.error(
        text.at(),
        text.described() + " needs " + needed + " bits, and " + of + " has " + width,
        "at most " + WordText.of(mask, 0, width),
        "");
    return false;
  }

  static String sentence(String next) {
    return next.isEmpty() ? "" : Character.toUpperCase(next.charAt(0)) + next.substring(1);
  }
}
