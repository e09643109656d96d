package cardproof.card.fault;

import cardproof.card.Line;

/** Two wires that changed places; both carry the same role. */
public record LinesExchanged(Line first, Line second) implements Fault {
  @Override
  public String name() {
    return first.name() + FaultNames.EXCHANGED_WITH + second.name();
  }
}
