package cardproof.bits;

import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Operators before one operand; all bind tighter than any between two. */
enum Prefix {
  PLUS("+", Sign::plus),
  MINUS("-", Sign::minus),
  INVERT("~", Invert::new),
  NOT("!", operand -> new Reduction(Reduction.Kind.OR, true, operand)),
  AND("&", operand -> new Reduction(Reduction.Kind.AND, false, operand)),
  NAND("~&", operand -> new Reduction(Reduction.Kind.AND, true, operand)),
  OR("|", operand -> new Reduction(Reduction.Kind.OR, false, operand)),
  NOR("~|", operand -> new Reduction(Reduction.Kind.OR, true, operand)),
  XOR("^", operand -> new Reduction(Reduction.Kind.XOR, false, operand)),
  XNOR("~^", operand -> new Reduction(Reduction.Kind.XOR, true, operand)),
  XNOR_TOO("^~", operand -> new Reduction(Reduction.Kind.XOR, true, operand));

  private static final Map<String, Prefix> BY_SYMBOL =
      Stream.of(values()).collect(Collectors.toMap(prefix -> prefix.symbol, Function.identity()));

  final String symbol;
  private final UnaryOperator<Node> maker;

  Prefix(String symbol, UnaryOperator<Node> maker) {
    this.symbol = symbol;
    this.maker = maker;
  }

  static Optional<Prefix> of(Token token) {
    return Optional.ofNullable(BY_SYMBOL.get(token.text()));
  }

  Node make(Node operand) {
    return maker.apply(operand);
  }
}
