package cardproof.files;

import cardproof.bits.Expression;
import cardproof.bits.Literal;
import cardproof.bits.LiteralException;
import cardproof.bits.Scope;
import cardproof.plan.Expected;
import cardproof.plan.Target;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

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
          "buses or lines with what must come back, such as expect: {S: 0, CO: 0b1}",
          "");
      return expected;
    }
    ExpectedOnce once = new ExpectedOnce(names, problems);
    for (Node.Entry entry : map.entries()) {
      Optional<Target> target = names.watched(entry.key());
      value(entry, target.filter(t -> once.take(t, entry.key()))).ifPresent(expected::add);
    }
    return expected;
  }

  /**
   * @param entry the name, and what must come back
   * @param target empty where the name is not known
   */
  Optional<Expected> value(Node.Entry entry, Optional<Target> target) {
    Optional<Node.Text> text = expressions.text(entry);
    if (text.isEmpty() || target.isEmpty()) {
      return Optional.empty();
    }
    return expression(text.get(), target.get())
        .map(expression -> new Expected(target.get(), expression));
  }

  private Optional<Expression> expression(Node.Text text, Target target) {
    Scope scope = names.scope();
    String written = text.text().strip();
    if (written.equals("x") && scope.slotOf("x") < 0) {
      return Optional.of(Expression.compile("0b" + "x".repeat(names.width(target)), scope));
    }
    Optional<Literal> number = number(written);
    if (number.isPresent() && !fits(text, number.get(), target)) {
      return Optional.empty();
    }
    return expressions.compile(text, scope);
  }

  private boolean fits(Node.Text text, Literal number, Target target) {
    return names.numbers().fits(text, number, names.width(target), names.of(target));
  }

  /**
   * Empty where it is no plain number, so that what is wrong with it is said as of an expression.
   */
  private Optional<Literal> number(String written) {
    Optional<Literal> set = names.setNames().literal(written);
    if (set.isPresent()) {
      return set;
    }
    try {
      return Optional.of(Literal.parse(written));
    } catch (LiteralException expression) {
      return Optional.empty();
    }
  }
}
