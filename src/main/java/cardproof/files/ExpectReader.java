package cardproof.files;

import cardproof.bits.Expression;
import cardproof.bits.Literal;
import cardproof.bits.LiteralException;
import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.plan.Expected;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/** What must come back: numbers with x for what nobody cares about, or expressions. */
final class ExpectReader {
  private final PlanNames names;
  private final Problems problems;
  private final Expressions expressions;

  ExpectReader(PlanNames names, Problems problems) {
    this.names = names;
    this.problems = problems;
    this.expressions = new Expressions(problems);
  }

  List<Expected> map(Node node) {
    List<Expected> expected = new ArrayList<>();
    if (!(node instanceof Node.Mapping map) || map.entries().isEmpty()) {
      problems.error(
          node.at(),
          "'expect' " + (node instanceof Node.Mapping ? "is empty" : "is " + node.described()),
          "buses with what must come back, such as expect: {S: 0, CO: 0b1}",
          "");
      return expected;
    }
    for (Node.Entry entry : map.entries()) {
      value(entry, names.watched(entry.key())).ifPresent(expected::add);
    }
    return expected;
  }

  /**
   * @param entry the bus's name, and what must come back
   * @param bus empty where the name is not known
   */
  Optional<Expected> value(Node.Entry entry, OptionalInt bus) {
    Optional<Node.Text> text = expressions.text(entry);
    if (text.isEmpty() || bus.isEmpty()) {
      return Optional.empty();
    }
    return expression(text.get(), names.bus(bus.getAsInt()))
        .map(expression -> new Expected(bus.getAsInt(), expression));
  }

  private Optional<Expression> expression(Node.Text text, Bus bus) {
    Card card = names.card().orElseThrow();
    String written = text.text().strip();
    if (written.equals("x") && card.scope().slotOf("x") < 0) {
      return Optional.of(Expression.compile("0b" + "x".repeat(bus.width()), card.scope()));
    }
    Optional<Literal> number = number(written);
    if (number.isPresent() && !fits(text, number.get(), bus)) {
      return Optional.empty();
    }
    return expressions.compile(text, card.scope());
  }

  private boolean fits(Node.Text text, Literal number, Bus bus) {
    return new Numbers(problems).fits(text, number, bus.width(), Numbers.of(bus));
  }

  /**
   * Empty where it is no plain number, so that what is wrong with it is said as of an expression.
   */
  private static Optional<Literal> number(String written) {
    try {
      return Optional.of(Literal.parse(written));
    } catch (LiteralException expression) {
      return Optional.empty();
    }
  }
}
