package cardproof.files;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Looks for blocks that use themselves, or one another without end. */
final class BlockCircles {
  static final int DEEPEST = 20;

  private final Problems problems;
  private final Map<Block, Integer> depths = new HashMap<>();
  private final List<Block> open = new ArrayList<>();
  private boolean good = true;
  private boolean saidTooDeep;

  BlockCircles(Problems problems) {
    this.problems = problems;
  }

  /** Whether every block comes to an end; says where one does not. */
  boolean noneIn(Collection<Block> blocks) {
    blocks.forEach(this::visit);
    return good;
  }

  /** How many blocks lie within one another here, this one included. */
  private int visit(Block block) {
    Integer known = depths.get(block);
    if (known != null) {
      return known;
    }
    open.add(block);
    int deepest = 0;
    for (UseForm use : block.uses()) {
      int again = open.indexOf(use.block());
      if (again >= 0) {
        circle(use, again);
        continue;
      }
      int inside = open.size() < DEEPEST ? visit(use.block()) : DEEPEST;
      if (inside == DEEPEST) {
        tooDeep(use);
      }
      deepest = Math.max(deepest, inside);
    }
    open.remove(open.size() - 1);
    int depth = Math.min(DEEPEST, deepest + 1);
    depths.put(block, depth);
    return depth;
  }

  private void circle(UseForm use, int again) {
    good = false;
    String chain =
        open.subList(again, open.size()).stream()
            .map(Block::name)
            .collect(Collectors.joining(" -> "));
    problems.error(
        use.written().at(),
        open.get(again) == open.get(open.size() - 1)
            ? "block '" + use.block().name() + "' uses itself"
            : "blocks use one another in a circle: " + chain + " -> " + use.block().name(),
        "blocks that come to an end",
        "Take one of the uses out");
  }

  private void tooDeep(UseForm use) {
    good = false;
    if (saidTooDeep) {
      return;
    }
    saidTooDeep = true;
    problems.error(
        use.written().at(),
        "blocks within blocks more than " + DEEPEST + " deep",
        "at most " + DEEPEST,
        "");
  }
}
