package cardproof.card.fault;

import cardproof.card.Line;
import java.util.List;

/** Two wires that changed places at the connector; both carry the same role. */
public record LinesExchanged(Line first, Line second) implements Fault {
  @Override
  public String name() {
    return first.name() + Verb.EXCHANGED_WITH.words + second.name();
  }

  @Override
  public FaultKind kind() {
    return FaultKind.EXCHANGED;
  }

  @Override
  public List<Site> sites() {
    return List.of(new LineSite(first), new LineSite(second));
  }
}
