package cardproof.plan;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * A march test of a memory: elements that each go through all words in one order and do the same
 * few things at every word. Notation and tests after van de Goor, Testing Semiconductor Memories
 * (1991), from memory. {@code w0} writes a background and {@code w1} its complement; {@code r0} and
 * {@code r1} read them back.
 *
 * @param name as in the literature
 */
public record March(String name, List<Element> elements) {
  /** 5 operations a word: stuck-at and address decoder faults. */
  public static final March MATS_PLUS = of("MATS+", "any w0; up r0,w1; down r1,w0");

  /** 10 operations a word: also transition faults, and coupling between two words. */
  public static final March MARCH_C_MINUS =
      of("March C-", "any w0; up r0,w1; up r1,w0; down r0,w1; down r1,w0; any r0");

  public static final List<March> ALL = List.of(MATS_PLUS, MARCH_C_MINUS);

  /**
   * @param down whether the highest word comes first; where a test leaves it open, it does not
   */
  public record Element(boolean down, List<Operation> operations) {
    public Element {
      operations = List.copyOf(operations);
    }
  }

  /**
   * @param read read and compare, or else write
   * @param complement the background's complement, or else the background itself
   */
  public record Operation(boolean read, boolean complement) {}

  public March {
    elements = List.copyOf(elements);
  }

  public static Optional<March> named(String name) {
    return ALL.stream().filter(test -> test.name.equals(name)).findFirst();
  }

  private static March of(String name, String notation) {
    return new March(name, Arrays.stream(notation.split("; ")).map(March::element).toList());
  }

  private static Element element(String notation) {
    String[] words = notation.split("[ ,]");
    return new Element(
        words[0].equals("down"),
        Arrays.stream(words)
            .skip(1)
            .map(word -> new Operation(word.charAt(0) == 'r', word.charAt(1) == '1'))
            .toList());
  }

  /** What is done to each word, with one background. */
  public int operationsPerWord() {
    return elements.stream().mapToInt(element -> element.operations().size()).sum();
  }
}
