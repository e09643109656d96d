package cardproof.files;

import cardproof.bits.Expression;
import cardproof.bits.ExpressionException;
import cardproof.bits.Scope;
import java.util.Optional;

/** Scalars that are expressions. */
final class Expressions {
  private final Problems problems;

  Expressions(Problems problems) {
    this.problems = problems;
  }

  /**
   * The text of an expression, or a problem that says to quote it where YAML took it for something
   * else.
   */
  Optional<Node.Text> text(Node.Entry entry) {
    return text(entry.key().text(), entry.value(), entry.alias(), entry.key());
  }

  private Optional<Node.Text> text(String key, Node node, boolean alias, Node.Text at) {
    if (alias) {
      problems.error(
          at.at(),
          "'*' begins a YAML alias, so '"
              + key
              + "' stands for what is in line "
              + node.at().line(),
          "an expression",
          QuoteHint.RULE);
    } else if (node.anchored()) {
      problems.error(
          node.at(),
          "'&' begins a YAML anchor here, so the expression for '" + key + "' loses it",
          "an expression",
          QuoteHint.forLine(key + ": " + node.raw()));
    } else if (node instanceof Node.Text text) {
      if (!text.text().isBlank()) {
        return Optional.of(text);
      }
      problems.error(node.at(), "'" + key + "' has no expression", "an expression", "");
    } else {
      problems.error(
          node.at(),
          "YAML takes the expression for '" + key + "' for " + node.described(),
          "an expression",
          QuoteHint.forValue(key, node.raw()));
    }
    return Optional.empty();
  }

  Optional<Expression> compile(Node.Text text, Scope scope) {
    try {
      return Optional.of(Expression.compile(text.text(), scope));
    } catch (ExpressionException bad) {
      problems.error(
          text.at(bad.offset()), bad.found(), bad.wanted(), Numbers.sentence(bad.next()));
      return Optional.empty();
    }
  }
}
