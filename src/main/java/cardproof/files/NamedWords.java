package cardproof.files;

import cardproof.plan.Generator;
import cardproof.plan.Generators;
import cardproof.text.Position;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Supplier;

/** Words that have a name, such as {@code gray}, some of them with a value as well. */
final class NamedWords {
  static final List<String> NAMES =
      List.of(
          "walking-ones",
          "walking-zeros",
          "all",
          "gray",
          "checkerboard",
          "carry-chain",
          "counting-codes",
          "constant-weight",
          "pair-tour");

  /** Those that may also be written as a map with a value. */
  static final List<String> WITH_VALUE =
      List.of("checkerboard", "carry-chain", "counting-codes", "pair-tour");

  private static final int WIDEST_COUNT = 62;
  private static final int WIDEST_TOUR = 31;

  private final Problems problems;
  private final Texts texts;
  private final Numbers numbers;

  NamedWords(Problems problems) {
    this.problems = problems;
    this.texts = new Texts(problems);
    this.numbers = new Numbers(problems);
  }

  /** Nothing where the width is not known, which somebody else has complained of. */
  static Optional<Generator> ifKnown(int width, Supplier<Generator> generator) {
    return width == 0 ? Optional.empty() : Optional.of(generator.get());
  }

  /**
   * @param name one of {@link #NAMES}
   */
  Optional<Generator> bare(String name, Position at, int width) {
    if (width == 0) {
      return Optional.empty();
    }
    return switch (name) {
      case "walking-ones" -> Optional.of(Generators.walkingOnes(width));
      case "walking-zeros" -> Optional.of(Generators.walkingZeros(width));
      case "all" -> ends(name, at, width, WIDEST_COUNT, () -> Generators.all(width));
      case "gray" -> ends(name, at, width, WIDEST_COUNT, () -> Generators.gray(width));
      case "checkerboard" -> Optional.of(Generators.checkerboard(width, 1));
      case "carry-chain" -> Optional.of(Generators.carryChain(width));
      case "counting-codes" -> Optional.of(Generators.countingCodes(width, false));
      case "constant-weight" -> Optional.of(Generators.constantWeight(width));
      case "pair-tour" ->
          ends(name, at, width, WIDEST_TOUR, () -> Generators.pairTour(1L << width));
      default -> throw new IllegalArgumentException(name);
    };
  }

  private Optional<Generator> ends(
      String name, Position at, int width, int widest, Supplier<Generator> generator) {
    if (width > widest) {
      problems.error(
          at,
          "'" + name + "' of " + width + " bits would never end",
          "at most " + widest + " bits",
          name.equals("pair-tour")
              ? "Say how many codes, such as {pair-tour: 10}"
              : "Use {random: 200}, or walking-ones");
      return Optional.empty();
    }
    return Optional.of(generator.get());
  }

  /**
   * @param name one of {@link #WITH_VALUE}
   * @param key for whom the words are, as written
   */
  Optional<Generator> with(String name, Node value, String key, int width) {
    return switch (name) {
      case "checkerboard" -> checkerboard(value, width);
      case "carry-chain" -> everyBit(value, key, width);
      case "counting-codes" ->
          word(value, name, "complements")
              .flatMap(w -> ifKnown(width, () -> Generators.countingCodes(width, true)));
      case "pair-tour" -> pairTour(value, width);
      default -> throw new IllegalArgumentException(name);
    };
  }

  private Optional<Generator> checkerboard(Node value, int width) {
    // a run as long as the word is no checkerboard
    long most = width == 0 ? Integer.MAX_VALUE : Math.max(1, width - 1);
    OptionalLong run = numbers.count(value, "checkerboard", 1, most);
    return run.isEmpty()
        ? Optional.empty()
        : ifKnown(width, () -> Generators.checkerboard(width, (int) run.getAsLong()));
  }

  private Optional<Generator> everyBit(Node value, String key, int width) {
    Optional<Node.Text> word = word(value, "carry-chain", "every-bit");
    if (word.isPresent() && width % 2 != 0) {
      problems.error(
          value.at(),
          "'" + key + "' is " + width + " bits wide, and this sets two operands at once",
          "two buses of the same width, such as A B",
          "Write carry-chain alone for one operand");
      return Optional.empty();
    }
    return word.flatMap(w -> ifKnown(width, () -> Generators.carryChainsFromEveryBit(width / 2)));
  }

  private Optional<Generator> pairTour(Node value, int width) {
    long most = width == 0 ? Integer.MAX_VALUE : 1L << Math.min(width, WIDEST_TOUR);
    OptionalLong codes = numbers.count(value, "pair-tour", 2, most);
    return codes.isEmpty()
        ? Optional.empty()
        : ifKnown(width, () -> Generators.pairTour(codes.getAsLong()));
  }

  private Optional<Node.Text> word(Node value, String key, String only) {
    Optional<Node.Text> text = texts.text(value, key, "the word " + only);
    if (text.isPresent() && !text.get().text().strip().equals(only)) {
      problems.error(value.at(), value.saidOf(key), "the word " + only, "");
      return Optional.empty();
    }
    return text;
  }
}
