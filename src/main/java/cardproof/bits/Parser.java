package cardproof.bits;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;

/**
 * Reads an expression by operator precedence. Only brackets, prefixes and {@code ?:} nest, and
 * their depth is bounded, so that no text can exhaust the stack.
 */
final class Parser {
  static final int MAX_CHARS = 10_000;
  static final int MAX_DEPTH = 200;

  private static final String SPLIT = "Split it over several lines of the card";

  private final Tokens tokens;
  private final Program program;
  private final NameReader names;
  private int depth;

  Parser(String text, Scope scope, Program program) {
    if (text.length() > MAX_CHARS) {
      String found = "the expression has " + text.length() + " characters";
      throw new ExpressionException(text, MAX_CHARS, found, "at most " + MAX_CHARS, SPLIT);
    }
    this.tokens = new Tokens(text);
    this.program = program;
    this.names = new NameReader(this, tokens, program, scope);
  }

  /** Reads all of the text. */
  Node parse() {
    Node root = expression();
    if (tokens.here().kind() != Token.Kind.END) {
      throw afterExpression();
    }
    return root;
  }

  NameReader names() {
    return names;
  }

  /** Reads as far as one expression goes. */
  Node expression() {
    enter();
    Node node = chain();
    if (tokens.accept("?")) {
      Node then = expression();
      tokens.expect(":", "between the two results of '?'");
      node = program.add(new Conditional(node, then, expression()));
    }
    depth--;
    return node;
  }

  /** Operands and what stands between them; those of one level associate to the left. */
  private Node chain() {
    Deque<Node> lefts = new ArrayDeque<>();
    Deque<Infix> waiting = new ArrayDeque<>();
    Node node = prefix();
    while (true) {
      Infix next = Infix.of(tokens.here()).orElse(null);
      while (!waiting.isEmpty() && (next == null || waiting.peek().precedence >= next.precedence)) {
        node = program.add(waiting.pop().make(lefts.pop(), node));
      }
      if (next == null) {
        return node;
      }
      tokens.advance();
      lefts.push(node);
      waiting.push(next);
      node = prefix();
    }
  }

  private Node prefix() {
    Prefix prefix = Prefix.of(tokens.here()).orElse(null);
    if (prefix == null) {
      return primary();
    }
    enter();
    tokens.advance();
    Node node = program.add(prefix.make(prefix()));
    depth--;
    return node;
  }

  private Node primary() {
    Token start = tokens.here();
    if (start.kind() == Token.Kind.NAME) {
      return names.read();
    }
    if (start.kind() == Token.Kind.NUMBER) {
      return number();
    }
    if (tokens.accept("(")) {
      Node inner = expression();
      tokens.expect(")", "to close the ( of character " + (start.offset() + 1));
      names.refuseSelect();
      return inner;
    }
    if (tokens.accept("{")) {
      return braces(start);
    }
    String found = Tokens.described(start) + " where an operand should";
    throw tokens.refuse(start, found, "a name, a number, ( or {", "");
  }

  private Node number() {
    Token number = tokens.advance();
    return number(number, number.text());
  }

  /**
   * @param at where it stands, written out or as a name for it
   */
  Node number(Token at, String text) {
    boolean decimal = text.chars().noneMatch(Character::isLetter);
    try {
      return program.add(new Constant(Literal.parse(text), decimal));
    } catch (LiteralException bad) {
      String found = "number '" + Excerpt.of(text) + "': " + bad.found();
      throw tokens.refuse(at, found, bad.wanted(), bad.next());
    }
  }

  private Node braces(Token open) {
    String close = "to close the { of character " + (open.offset() + 1);
    Token first = tokens.here();
    int mark = program.mark();
    List<Node> parts = new ArrayList<>();
    parts.add(expression());
    int times = 1;
    boolean repeated = tokens.accept("{");
    if (repeated) {
      times = names.count(parts.remove(0), mark, first, Words.MAX_WIDTH);
      parts.add(expression());
    }
    while (tokens.accept(",")) {
      parts.add(expression());
    }
    tokens.expect("}", close);
    if (repeated) {
      tokens.expect("}", close);
    }
    int width = times * Concatenation.width(parts);
    if (width > Words.MAX_WIDTH) {
      String found = "the parts in { } make " + width + " bits";
      throw tokens.refuse(open, found, "at most 64", "Select fewer bits of a part, as in A[7:0]");
    }
    names.refuseSelect();
    return program.add(new Concatenation(parts, times));
  }

  private ExpressionException afterExpression() {
    Token here = tokens.here();
    if (here.is("=")) {
      return tokens.refuse(here, "'=' does not compare", "an operator", "Write == to compare");
    }
    boolean closes = here.is(")") || here.is("]") || here.is("}");
    return tokens.refuse(
        here,
        Tokens.described(here) + " after a complete expression",
        "an operator or the end",
        closes ? "Nothing is open here that it could close" : "");
  }

  private void enter() {
    if (++depth > MAX_DEPTH) {
      String found = "brackets, prefixes or '?' nest more than " + MAX_DEPTH + " deep";
      throw tokens.refuse(tokens.here(), found, "", SPLIT);
    }
  }
}
