package cardproof.card.fault;

import cardproof.card.Line;

/** A line that keeps one level whatever drives it: joined to ground, or to the supply. */
public record LineStuck(Line line, boolean atSupply) implements Fault {
  @Override
  public String name() {
    return line.name() + FaultNames.STUCK_AT + (atSupply ? FaultNames.SUPPLY : FaultNames.GROUND);
  }
}
