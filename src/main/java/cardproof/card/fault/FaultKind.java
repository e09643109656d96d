package cardproof.card.fault;

/**
 * The kinds of fault, most likely first on a card soldered by hand (judgement, after where hands
 * slip: joints and wires before parts).
 */
public enum FaultKind {
  JOINT_MISSING("joint missing"),
  EXCHANGED("wires exchanged"),
  BRIDGED("bridged"),
  NEVER_MAKES("contact never makes"),
  DIODE_OPEN("diode open"),
  DIODE_SHORT("diode short"),
  DIODE_BACKWARDS("diode backwards"),
  WELDED("contact welded"),
  COIL_OPEN("coil open"),
  LINE_STUCK("line stuck"),
  /** A net inside the card; no slip of its own makes it, but it stands for many. */
  NET_STUCK("net stuck"),
  LAMP_DEAD("lamp dead"),
  FUSE_OPEN("fuse open"),
  RESISTOR_OPEN("resistor open"),
  WIRE_OPEN("wire open"),
  SLOW("relay slow");

  private final String words;

  FaultKind(String words) {
    this.words = words;
  }

  @Override
  public String toString() {
    return words;
  }
}
