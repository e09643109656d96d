package cardproof.card.fault;

import java.util.List;

/**
 * A net inside the card that keeps one level: loads on it see ground or supply. At ground nothing
 * comes from the contacts and diodes on it, so this makes no short; at supply they are fed.
 */
public record NetStuck(String net, boolean atSupply) implements Fault {
  @Override
  public String name() {
    return new NetSite(net).name() + Verb.STUCK_AT.words + Verb.rail(atSupply);
  }

  @Override
  public FaultKind kind() {
    return FaultKind.NET_STUCK;
  }

  @Override
  public List<Site> sites() {
    return List.of(new NetSite(net));
  }
}
