package cardproof.bits;

import cardproof.text.Nearest;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/** Reads an expression into nodes in the order of evaluation, by precedence climbing. */
final class Parser {
  static final int MAX_CHARS = 10_000;
  static final int MAX_DEPTH = 200;

  private final String text;
  private final Scope scope;
  private final Lexer lexer;
  private final List<Node> nodes = new ArrayList<>();
  private final BitSet slots = new BitSet();
  private Token token;
  private int depth;

  Parser(String text, Scope scope) {
    this.text = text;
    this.scope = scope;
    this.lexer = new Lexer(text);
  }

  /** All nodes, the root last. */
  List<Node> parse() {
    if (text.length() > MAX_CHARS) {
      throw refuse(
          MAX_CHARS,
          "the expression has " + text.length() + " characters",
          "at most " + MAX_CHARS,
          "split it over several lines of the card");
    }
    advance();
    conditional();
    if (token.kind() != Token.Kind.END) {
      throw afterExpression();
    }
    return nodes;
  }

  BitSet slots() {
    return slots;
  }

  private Node conditional() {
    enter();
    Node condition = infix(1);
    if (accept("?")) {
      Node then = conditional();
      expect(":", "between the two results of '?'");
      condition = add(new Conditional(condition, then, conditional()));
    }
    depth--;
    return condition;
  }

  private Node infix(int lowest) {
    Node left = prefix();
    Infix infix = Infix.of(token.text()).orElse(null);
    while (infix != null && infix.precedence >= lowest) {
      advance();
      // all associate to the left, so the right side holds only what binds tighter
      left = add(infix.make(left, infix(infix.precedence + 1)));
      infix = Infix.of(token.text()).orElse(null);
    }
    return left;
  }

  private Node prefix() {
    Prefix prefix = Prefix.of(token.text()).orElse(null);
    if (prefix == null) {
      return primary();
    }
    enter();
    advance();
    Node node = add(prefix.make(prefix()));
    depth--;
    return node;
  }

  private Node primary() {
    Token start = token;
    if (start.kind() == Token.Kind.NUMBER) {
      return number();
    }
    if (start.kind() == Token.Kind.NAME) {
      return name();
    }
    if (accept("(")) {
      Node inner = conditional();
      expect(")", "to close the ( of character " + (start.offset() + 1));
      refuseSelect();
      return inner;
    }
    if (accept("{")) {
      return braces(start);
    }
    throw refuse(
        start.offset(),
        start.described() + " where an operand should",
        "a name, a number, ( or {",
        "");
  }

  private Node number() {
    Token number = advance();
    try {
      boolean decimal = number.text().chars().noneMatch(Character::isLetter);
      return add(new Constant(Literal.parse(number.text()), decimal));
    } catch (LiteralException bad) {
      throw refuse(
          number.offset(),
          "number '" + Excerpt.of(number.text()) + "': " + bad.found(),
          bad.wanted(),
          bad.next());
    }
  }

  private Node name() {
    Token name = advance();
    int slot = scope.slotOf(name.text());
    if (slot < 0) {
      throw refuse(
          name.offset(),
          "no line or bus is called '" + Excerpt.of(name.text()) + "'",
          scope.names().isEmpty() ? "" : "one of " + Excerpt.of(String.join(", ", scope.names())),
          Nearest.to(name.text(), scope.names())
              .map(known -> "write '" + known + "', the nearest known name")
              .orElse(""));
    }
    slots.set(slot);
    if (!token.is("[")) {
      return add(new Name(slot, 0, scope.widthOf(slot)));
    }
    advance();
    Node node = select(name, slot, scope.widthOf(slot));
    expect("]", "to close the [ after '" + name.text() + "'");
    refuseSelect();
    return node;
  }

  private Node select(Token name, int slot, int width) {
    Token at = token;
    int mark = nodes.size();
    Node index = conditional();
    if (accept(":")) {
      int high = bit(constant(index, mark, at), name, width, at);
      Token lowAt = token;
      int lowMark = nodes.size();
      int low = bit(constant(conditional(), lowMark, lowAt), name, width, lowAt);
      if (low > high) {
        throw refuse(
            at.offset(),
            "the bits run upwards, from " + high + " to " + low,
            "the higher bit first",
            "write " + name.text() + "[" + low + ":" + high + "]");
      }
      return add(new Name(slot, low, high - low + 1));
    }
    boolean up = token.is("+:");
    boolean down = token.is("-:");
    int count = 1;
    if (up || down) {
      advance();
      Token countAt = token;
      int countMark = nodes.size();
      count = count(constant(conditional(), countMark, countAt), width, countAt);
    }
    int below = down ? count - 1 : 0;
    if (!index.constant) {
      return add(new DynamicSelect(slot, width, index, count, below));
    }
    int first = bit(constant(index, mark, at), name, width, at);
    bit(up ? first + count - 1 : first, name, width, at);
    if (first < below) {
      throw refuse(
          at.offset(),
          count + " bits downwards from bit " + first + " go below bit 0",
          "at most " + (first + 1) + " bits",
          "");
    }
    return add(new Name(slot, first - below, count));
  }

  private Node braces(Token open) {
    Token at = token;
    int mark = nodes.size();
    List<Node> parts = new ArrayList<>();
    parts.add(conditional());
    int times = 1;
    boolean repeated = accept("{");
    if (repeated) {
      times = count(constant(parts.remove(0), mark, at), Words.MAX_WIDTH, at);
      parts.add(conditional());
    }
    while (accept(",")) {
      parts.add(conditional());
    }
    expect("}", "to close the { of character " + (open.offset() + 1));
    if (repeated) {
      expect("}", "to close the { of character " + (open.offset() + 1));
    }
    int width = Math.multiplyExact(times, Concatenation.width(parts));
    if (width > Words.MAX_WIDTH) {
      throw refuse(open.offset(), "this makes " + width + " bits", "at most 64 bits", "");
    }
    refuseSelect();
    return add(new Concatenation(parts, times));
  }

  /** The value of a constant operand, whose nodes since {@code mark} are taken out again. */
  private long constant(Node operand, int mark, Token at) {
    if (!operand.constant) {
      throw refuse(
          at.offset(),
          "a name stands where the number of bits must be fixed",
          "a constant",
          "write A[i +: 4] for four bits from a computed one up");
    }
    List<Node> own = nodes.subList(mark, nodes.size());
    operand.sizeAsPlaces();
    Sizing.settle(own, new Values(0));
    own.clear();
    if (operand.unknown != 0) {
      throw refuse(at.offset(), "this constant has unknown bits", "a known number", "");
    }
    return operand.value;
  }

  private int bit(long bit, Token name, int width, Token at) {
    if (Long.compareUnsigned(bit, width) >= 0) {
      throw refuse(
          at.offset(),
          "'" + name.text() + "' has no bit " + Long.toUnsignedString(bit),
          width == 1
              ? "bit 0: it is 1 bit wide"
              : "bits " + (width - 1) + " to 0: it is " + width + " bits wide",
          "");
    }
    return (int) bit;
  }

  private int count(long count, int most, Token at) {
    if (count == 0 || Long.compareUnsigned(count, most) > 0) {
      throw refuse(at.offset(), "the count is " + Long.toUnsignedString(count), "1 to " + most, "");
    }
    return (int) count;
  }

  private void refuseSelect() {
    if (token.is("[")) {
      throw refuse(
          token.offset(),
          "'[' follows something that is no plain name",
          "bits selected from a name only",
          "shift and mask instead: (A + B) >> 4 & 0xF");
    }
  }

  private ExpressionException afterExpression() {
    if (token.is("=")) {
      return refuse(token.offset(), "'=' does not compare", "an operator", "write == to compare");
    }
    return refuse(
        token.offset(),
        token.described() + " after a complete expression",
        "an operator or the end",
        token.is(")") || token.is("]") || token.is("}") ? "nothing is open here to close" : "");
  }

  private <T extends Node> T add(T node) {
    nodes.add(node);
    return node;
  }

  private void enter() {
    if (++depth > MAX_DEPTH) {
      throw refuse(
          token.offset(),
          "brackets, prefixes or '?' nest more than " + MAX_DEPTH + " deep",
          "",
          "split it over several lines of the card");
    }
  }

  private Token advance() {
    Token before = token;
    token = lexer.next();
    return before;
  }

  private boolean accept(String symbol) {
    boolean there = token.is(symbol);
    if (there) {
      advance();
    }
    return there;
  }

  private void expect(String symbol, String why) {
    if (!accept(symbol)) {
      throw refuse(token.offset(), token.described() + " here", "'" + symbol + "' " + why, "");
    }
  }

  private ExpressionException refuse(int offset, String found, String wanted, String next) {
    return new ExpressionException(text, offset, found, wanted, next);
  }
}
