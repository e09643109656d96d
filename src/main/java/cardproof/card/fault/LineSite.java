package cardproof.card.fault;

import cardproof.card.Line;

/** The pin at which a line leaves the card. */
public record LineSite(Line line) implements Site {
  @Override
  public String name() {
    return line.name();
  }
}
