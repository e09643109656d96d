package cardproof.link.serial;

import cardproof.link.LinkException;

/** A process that tries to open a port and says what came of it. */
final class PortTrial {
  private PortTrial() {}

  public static void main(String[] args) {
    try (SerialWire wire = SerialWire.open(args[0], 250_000)) {
      System.out.println("trial open " + wire.name());
    } catch (LinkException e) {
      System.out.println("trial " + e.problem());
    }
  }
}
