package cardproof.card.fault;

import java.util.List;

/**
 * No current passes a part of two ends: a diode, a fuse, a resistor or a wire that is open, a lamp
 * that is dead.
 */
public record PartOpen(String part, FaultKind kind) implements Fault {
  public PartOpen {
    switch (kind) {
      case DIODE_OPEN, FUSE_OPEN, RESISTOR_OPEN, WIRE_OPEN, LAMP_DEAD -> {}
      default -> throw new IllegalArgumentException(kind + " is no open part");
    }
  }

  @Override
  public String name() {
    return part + (kind == FaultKind.LAMP_DEAD ? Verb.DEAD : Verb.OPEN).words;
  }

  @Override
  public List<Site> sites() {
    return List.of(new PartSite(part));
  }
}
