package cardproof.bits;

import java.util.Map;
import java.util.Optional;
import java.util.function.BinaryOperator;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Operators between two operands. A higher precedence binds tighter, as in IEEE 1364-2005 table
 * 5-4.
 */
enum Infix {
  LOGIC_OR("||", 1, Logic::or),
  LOGIC_AND("&&", 2, Logic::and),
  OR("|", 3, (a, b) -> new Bitwise(Bitwise.Kind.OR, a, b)),
  XOR("^", 4, (a, b) -> new Bitwise(Bitwise.Kind.XOR, a, b)),
  XNOR("~^", 4, (a, b) -> new Bitwise(Bitwise.Kind.XNOR, a, b)),
  XNOR_TOO("^~", 4, (a, b) -> new Bitwise(Bitwise.Kind.XNOR, a, b)),
  AND("&", 5, (a, b) -> new Bitwise(Bitwise.Kind.AND, a, b)),
  EQUAL("==", 6, (a, b) -> new Comparison(Comparison.Kind.EQUAL, a, b)),
  UNEQUAL("!=", 6, (a, b) -> new Comparison(Comparison.Kind.UNEQUAL, a, b)),
  SAME("===", 6, (a, b) -> new Comparison(Comparison.Kind.SAME, a, b)),
  DIFFERENT("!==", 6, (a, b) -> new Comparison(Comparison.Kind.DIFFERENT, a, b)),
  LESS("<", 7, (a, b) -> new Comparison(Comparison.Kind.LESS, a, b)),
  LESS_OR_EQUAL("<=", 7, (a, b) -> new Comparison(Comparison.Kind.LESS_OR_EQUAL, a, b)),
  GREATER(">", 7, (a, b) -> new Comparison(Comparison.Kind.GREATER, a, b)),
  GREATER_OR_EQUAL(">=", 7, (a, b) -> new Comparison(Comparison.Kind.GREATER_OR_EQUAL, a, b)),
  SHIFT_LEFT("<<", 8, Shift::left),
  SHIFT_RIGHT(">>", 8, Shift::right),
  SHIFT_LEFT_TOO("<<<", 8, Shift::left),
  SHIFT_RIGHT_TOO(">>>", 8, Shift::right),
  ADD("+", 9, (a, b) -> new Arithmetic(Arithmetic.Kind.ADD, a, b)),
  SUBTRACT("-", 9, (a, b) -> new Arithmetic(Arithmetic.Kind.SUBTRACT, a, b)),
  MULTIPLY("*", 10, (a, b) -> new Arithmetic(Arithmetic.Kind.MULTIPLY, a, b)),
  DIVIDE("/", 10, (a, b) -> new Arithmetic(Arithmetic.Kind.DIVIDE, a, b)),
  REMAINDER("%", 10, (a, b) -> new Arithmetic(Arithmetic.Kind.REMAINDER, a, b)),
  POWER("**", 11, Power::new);

  private static final Map<String, Infix> BY_SYMBOL =
      Stream.of(values()).collect(Collectors.toMap(infix -> infix.symbol, Function.identity()));

  final String symbol;
  final int precedence;
  private final BinaryOperator<Node> maker;

  Infix(String symbol, int precedence, BinaryOperator<Node> maker) {
    this.symbol = symbol;
    this.precedence = precedence;
    this.maker = maker;
  }

  static Optional<Infix> of(Token token) {
    return Optional.ofNullable(BY_SYMBOL.get(token.text()));
  }

  Node make(Node left, Node right) {
    return maker.apply(left, right);
  }
}
