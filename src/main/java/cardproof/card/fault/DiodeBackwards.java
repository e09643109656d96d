package cardproof.card.fault;

import java.util.List;

/** A diode soldered in the wrong way round. */
public record DiodeBackwards(String diode) implements Fault {
  @Override
  public String name() {
    return diode + Verb.BACKWARDS.words;
  }

  @Override
  public FaultKind kind() {
    return FaultKind.DIODE_BACKWARDS;
  }

  @Override
  public List<Site> sites() {
    return List.of(new PartSite(diode));
  }
}
