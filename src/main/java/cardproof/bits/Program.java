package cardproof.bits;

import java.util.ArrayList;
import java.util.List;

/** Nodes in the order of evaluation, operands first, while an expression is read. */
final class Program {
  private static final Values NONE = new Values(0);

  private final List<Node> nodes = new ArrayList<>();

  Node add(Node node) {
    nodes.add(node);
    return node;
  }

  /** Where the next node will stand. */
  int mark() {
    return nodes.size();
  }

  /**
   * Computes a constant operand that counts places and takes its nodes out again, for they are not
   * needed after that.
   *
   * @param mark where the first of its nodes stands; the last one is {@code operand}
   */
  void takeOut(Node operand, int mark) {
    List<Node> own = nodes.subList(mark, nodes.size());
    operand.sizeAsPlaces();
    passDown(own);
    own.forEach(node -> node.step(NONE));
    own.clear();
  }

  /**
   * Sizes all nodes for the 64-bit target and computes the constant ones, whose registers then stay
   * as they are.
   *
   * @return the others, which have to be stepped for each evaluation
   */
  Node[] finish() {
    nodes.get(nodes.size() - 1).size(Words.MAX_WIDTH);
    passDown(nodes);
    nodes.stream().filter(node -> node.constant).forEach(node -> node.step(NONE));
    return nodes.stream().filter(node -> !node.constant).toArray(Node[]::new);
  }

  /** From the root, which is last and already sized, down to the leaves. */
  private static void passDown(List<Node> nodes) {
    for (int index = nodes.size() - 1; index >= 0; index--) {
      nodes.get(index).sizeOperands();
    }
  }
}
