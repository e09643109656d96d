package cardproof.card.fault;

import java.util.List;

/** No current passes a relay's coil. */
public record CoilOpen(String relay) implements Fault {
  @Override
  public String name() {
    return relay + Verb.COIL_OPEN.words;
  }

  @Override
  public FaultKind kind() {
    return FaultKind.COIL_OPEN;
  }

  @Override
  public List<Site> sites() {
    return List.of(new PartSite(relay));
  }
}
