package cardproof.card.fault;

import java.util.List;

/** A diode that conducts both ways, as a wire does. */
public record DiodeShort(String diode) implements Fault {
  @Override
  public String name() {
    return diode + Verb.SHORT.words;
  }

  @Override
  public FaultKind kind() {
    return FaultKind.DIODE_SHORT;
  }

  @Override
  public List<Site> sites() {
    return List.of(new PartSite(diode));
  }
}
