package cardproof.bits;

import java.util.List;

/** Passes widths down and computes constants, over nodes in the order of evaluation. */
final class Sizing {
  private Sizing() {}

  /** Sizes every node from the root, which is last and already sized, down to the leaves. */
  static void passDown(List<Node> nodes) {
    for (int index = nodes.size() - 1; index >= 0; index--) {
      nodes.get(index).sizeOperands();
    }
  }

  /** Sizes constant nodes and computes their registers. */
  static void settle(List<Node> constants, Values none) {
    passDown(constants);
    constants.forEach(node -> node.step(none));
  }
}
