package cardproof.card.fault;

import cardproof.card.Line;
import java.util.List;

/**
 * A line that keeps one level whatever drives it. It is parted at the connector, so this makes no
 * short: of an output the outside sees the level, of an input the card, of a shared line both.
 */
public record LineStuck(Line line, boolean atSupply) implements Fault {
  @Override
  public String name() {
    return line.name() + Verb.STUCK_AT.words + Verb.rail(atSupply);
  }

  @Override
  public FaultKind kind() {
    return FaultKind.LINE_STUCK;
  }

  @Override
  public List<Site> sites() {
    return List.of(new LineSite(line));
  }
}
