package cardproof.bits;

import cardproof.text.Nearest;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** Reads a name and the bits selected from it, and operands that must be constant. */
final class NameReader {
  /** Words that other notations use; none is reserved here. */
  private static final Map<String, String> WORD_OPERATORS =
      Map.of("and", "&", "or", "|", "xor", "^", "not", "~", "mod", "%");

  private final Parser parser;
  private final Tokens tokens;
  private final Program program;
  private final Scope scope;
  private final BitSet slots = new BitSet();

  NameReader(Parser parser, Tokens tokens, Program program, Scope scope) {
    this.parser = parser;
    this.tokens = tokens;
    this.program = program;
    this.scope = scope;
  }

  /** The slots of the names read so far. */
  BitSet slots() {
    return slots;
  }

  Node read() {
    Token name = tokens.advance();
    int slot = scope.slotOf(name.text());
    if (slot < 0) {
      return constant(name);
    }
    int width = scope.widthOf(slot);
    if (width < 1 || width > Words.MAX_WIDTH) {
      throw new IllegalArgumentException("'" + name.text() + "' is given " + width + " bits");
    }
    slots.set(slot);
    if (!tokens.accept("[")) {
      return program.add(new Name(slot, 0, width));
    }
    Node node = program.add(select(name.text(), slot, width));
    tokens.expect("]", "to close the [ after '" + name.text() + "'");
    refuseSelect();
    return node;
  }

  private Node constant(Token name) {
    Node number = parser.number(name, scope.constant(name.text()).orElseThrow(() -> unknown(name)));
    refuseSelect();
    return number;
  }

  private ExpressionException unknown(Token name) {
    List<String> known = List.copyOf(scope.names());
    String word = WORD_OPERATORS.get(name.text().toLowerCase(Locale.ROOT));
    String next =
        word != null
            ? "Write " + word + " for " + name.text()
            : Nearest.to(name.text(), known)
                .map(nearest -> "Write '" + nearest + "', the nearest known name")
                .orElse("");
    String found = "no line or bus is called '" + Excerpt.of(name.text()) + "'";
    return tokens.refuse(name, found, known.isEmpty() ? "" : Excerpt.names(known), next);
  }

  private Node select(String name, int slot, int width) {
    Token at = tokens.here();
    int mark = program.mark();
    Node index = parser.expression();
    if (tokens.accept(":")) {
      return range(name, slot, width, bit(name, width, constant(index, mark, at), at));
    }
    boolean down = tokens.here().is("-:");
    int count = 1;
    if (tokens.accept("-:") || tokens.accept("+:")) {
      Token countAt = tokens.here();
      int countMark = program.mark();
      count = count(parser.expression(), countMark, countAt, width);
    }
    int below = down ? count - 1 : 0;
    if (!index.constant) {
      return new DynamicSelect(slot, width, index, count, below);
    }
    int first = bit(name, width, constant(index, mark, at), at);
    if (first < below) {
      String found = count + " bits down from bit " + first + " end below bit 0";
      throw tokens.refuse(at, found, "at most " + (first + 1), "");
    }
    bit(name, width, (long) first - below + count - 1, at);
    return new Name(slot, first - below, count);
  }

  private Node range(String name, int slot, int width, int high) {
    Token at = tokens.here();
    int mark = program.mark();
    int low = bit(name, width, constant(parser.expression(), mark, at), at);
    if (low > high) {
      String next = "Write " + name + "[" + low + ":" + high + "]";
      throw tokens.refuse(
          at, "the bits run from " + high + " up to " + low, "the higher bit first", next);
    }
    return new Name(slot, low, high - low + 1);
  }

  private int bit(String name, int width, long bit, Token at) {
    if (Long.compareUnsigned(bit, width) >= 0) {
      String bits = width == 1 ? "bit 0" : "bits " + (width - 1) + " to 0";
      String wanted = bits + ", for it is " + width + (width == 1 ? " bit wide" : " bits wide");
      throw tokens.refuse(
          at, "'" + name + "' has no bit " + Long.toUnsignedString(bit), wanted, "");
    }
    return (int) bit;
  }

  /** A constant number of bits or times, 1 to {@code most}. */
  int count(Node operand, int mark, Token at, int most) {
    long count = constant(operand, mark, at);
    if (count == 0 || Long.compareUnsigned(count, most) > 0) {
      String found = "the count is " + Long.toUnsignedString(count);
      throw tokens.refuse(at, found, "1 to " + most, "");
    }
    return (int) count;
  }

  /** The value of a constant operand, whose nodes since {@code mark} are taken out again. */
  private long constant(Node operand, int mark, Token at) {
    if (!operand.constant) {
      throw tokens.refuse(
          at,
          "this number of bits depends on a line",
          "a constant",
          "Write A[i] or A[i +: 4] to start at a computed bit");
    }
    program.takeOut(operand, mark);
    if (operand.unknown != 0) {
      throw tokens.refuse(at, "this constant has unknown bits", "a known number", "");
    }
    return operand.value;
  }

  /** Refuses a {@code [} here, where something other than a plain name stands before it. */
  void refuseSelect() {
    if (tokens.here().is("[")) {
      throw tokens.refuse(
          tokens.here(),
          "'[' follows something that is no plain name",
          "bits selected from a name only",
          "Shift and mask instead, as in (A + B) >> 4 & 0xF");
    }
  }
}
