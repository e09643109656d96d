package cardproof.card.fault;

import java.util.List;

/**
 * Solder, a whisker or a stray strand between two places.
 *
 * @param first a line's pin (on the card's side of the joint), a terminal or a net
 */
public record Bridged(Site first, Site second) implements Fault {
  public Bridged {
    if (first instanceof PartSite || second instanceof PartSite) {
      throw new IllegalArgumentException("a part as a whole has no solder point");
    }
  }

  @Override
  public String name() {
    return first.name() + Verb.BRIDGED_TO.words + second.name();
  }

  @Override
  public FaultKind kind() {
    return FaultKind.BRIDGED;
  }

  @Override
  public List<Site> sites() {
    return List.of(first, second);
  }
}
