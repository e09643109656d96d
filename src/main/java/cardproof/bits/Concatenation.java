package cardproof.bits;

import java.util.List;

/** {@code {a, b}} and {@code {3{a, b}}}: self-determined parts side by side, the first highest. */
final class Concatenation extends Node {
  private final Node[] parts;
  private final int times;

  Concatenation(List<Node> parts, int times) {
    super(times * width(parts), parts.stream().allMatch(part -> part.constant), false);
    this.parts = parts.toArray(Node[]::new);
    this.times = times;
  }

  static int width(List<Node> parts) {
    return parts.stream().mapToInt(part -> part.width).sum();
  }

  @Override
  void sizeOperands() {
    for (Node part : parts) {
      part.size(part.width);
    }
  }

  @Override
  void step(Values in) {
    long bits = 0;
    long anything = 0;
    for (int time = 0; time < times; time++) {
      for (Node part : parts) {
        // a part of all 64 bits is the only one, so what the shift leaves behind is 0 anyway
        bits = bits << part.width | part.value;
        anything = anything << part.width | part.unknown;
      }
    }
    value = bits;
    unknown = anything;
  }
}
