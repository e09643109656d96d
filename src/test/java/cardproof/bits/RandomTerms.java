package cardproof.bits;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;

/** Random expression trees with numbers in every form, x digits among them, from a seed. */
final class RandomTerms {
  static final List<Term.Line> LINES =
      List.of(
          new Term.Line("A", 12),
          new Term.Line("B", 12),
          new Term.Line("CI", 1),
          new Term.Line("C2", 2),
          new Term.Line("N", 3),
          new Term.Line("hour.Q", 5),
          new Term.Line("M_33", 33),
          new Term.Line("P63", 63),
          new Term.Line("W_64", 64));

  /** Lines whose values make sense as a number of places. */
  private static final List<Term.Line> FEW_BITS = LINES.subList(2, 6);

  private static final List<String> PREFIXES =
      List.of("+", "-", "~", "!", "&", "~&", "|", "~|", "^", "~^", "^~");
  private static final List<String> OPERATORS =
      Term.levels().stream().flatMap(List::stream).toList();
  private static final List<String> ONE_BIT =
      List.of("<", "<=", ">", ">=", "==", "!=", "===", "!==", "&&", "||");

  /**
   * Left out: indices of 2 to the 31 and more, which the simulator cuts to 32 bits with a sign, so
   * that bit 2 to the 32 reads as bit 0. By the standard (IEEE 1364-2005 clause 5.2.1) what lies
   * outside the word reads x, as it does here; SelectTest holds that.
   */
  private static final Term INDEX_BITS =
      new Term.Number("0x7FFFFFFF", BigInteger.valueOf(0x7FFF_FFFF), 32, false);

  private final Random random;
  private final RandomNumbers numbers;

  RandomTerms(Random random) {
    this.random = random;
    this.numbers = new RandomNumbers(random);
  }

  /** One in four with a bit before it, which shows how wide the rest is by itself. */
  Term next() {
    Term term = term(1 + random.nextInt(4));
    boolean marked = random.nextInt(4) == 0 && term.width() < Words.MAX_WIDTH;
    return marked ? new Term.Joined(1, List.of(RandomNumbers.ONE_BIT, term)) : term;
  }

  private Term term(int depth) {
    if (depth == 0) {
      return leaf();
    }
    return switch (random.nextInt(12)) {
      case 0 -> leaf();
      case 1, 2 -> new Term.Before(any(PREFIXES), term(depth - 1));
      case 3 -> new Term.Choice(term(depth - 1), term(depth - 1), term(depth - 1));
      case 4 -> joined(depth - 1);
      case 5 -> picked(depth - 1);
      default -> between(depth - 1);
    };
  }

  private Term leaf() {
    return switch (random.nextInt(5)) {
      case 0, 1 -> any(LINES);
      case 2 -> range();
      default -> numbers.next();
    };
  }

  private Term between(int depth) {
    String operator = any(OPERATORS);
    if (ONE_BIT.contains(operator)) {
      // half as often as the others, for one bit hides what led to it
      operator = any(OPERATORS);
    }
    boolean counts = operator.contains("<<") || operator.contains(">>") || operator.equals("**");
    return new Term.Between(term(depth), operator, counts ? places(depth) : term(depth));
  }

  /** A shift, an exponent or an index: mostly few, for many say little. */
  private Term places(int depth) {
    return switch (random.nextInt(6)) {
      case 0, 1 -> any(FEW_BITS);
      case 2 -> numbers.few();
      case 3 -> new Term.Between(any(FEW_BITS), any(OPERATORS), numbers.few());
      default -> term(depth);
    };
  }

  private Term range() {
    Term.Line line = any(LINES);
    int one = random.nextInt(line.width());
    int other = random.nextInt(line.width());
    return new Term.Range(line, Math.max(one, other), Math.min(one, other));
  }

  private Term joined(int depth) {
    List<Term> parts = new ArrayList<>(List.of(term(depth)));
    for (int more = random.nextInt(3); more > 0; more--) {
      parts.add(term(depth));
    }
    Term.Joined all = new Term.Joined(1 + random.nextInt(4), parts);
    if (all.width() > Words.MAX_WIDTH) {
      all = new Term.Joined(1, parts);
    }
    while (all.width() > Words.MAX_WIDTH) {
      parts = parts.subList(1, parts.size());
      all = new Term.Joined(1, parts);
    }
    return all;
  }

  private Term picked(int depth) {
    Term.Line line = any(LINES);
    int width = 1 + random.nextInt(Math.min(8, line.width()));
    boolean down = random.nextBoolean();
    if (random.nextInt(4) == 0) {
      int low = random.nextInt(line.width() - width + 1);
      int first = down ? low + width - 1 : low;
      return new Term.Picked(line, RandomNumbers.decimal(first), width, down);
    }
    Term index = places(depth);
    if (!readsLine(index)) {
      // a constant index outside the line is refused, a computed one is not
      index = new Term.Between(any(FEW_BITS), any(OPERATORS), index);
    }
    if (index.width() >= 32 || index.decimal()) {
      index = new Term.Between(index, "&", INDEX_BITS);
    }
    return new Term.Picked(line, index, width, down);
  }

  private static boolean readsLine(Term term) {
    if (term instanceof Term.Before before) {
      return readsLine(before.operand());
    }
    if (term instanceof Term.Between between) {
      return readsLine(between.left()) || readsLine(between.right());
    }
    if (term instanceof Term.Choice choice) {
      return Stream.of(choice.condition(), choice.then(), choice.otherwise())
          .anyMatch(RandomTerms::readsLine);
    }
    if (term instanceof Term.Joined joined) {
      return joined.parts().stream().anyMatch(RandomTerms::readsLine);
    }
    return !(term instanceof Term.Number || term instanceof Term.Unknown);
  }

  private <T> T any(List<? extends T> these) {
    return these.get(random.nextInt(these.size()));
  }
}
