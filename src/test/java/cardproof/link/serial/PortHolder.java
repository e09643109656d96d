package cardproof.link.serial;

/** A process that keeps a port open until its standard input ends. */
final class PortHolder {
  private PortHolder() {}

  public static void main(String[] args) throws Exception {
    try (SerialWire wire = SerialWire.open(args[0], 250_000)) {
      System.out.println("open " + wire.name());
      while (System.in.read() >= 0) {
        // The end of the stream is the sign to end.
      }
    }
  }
}
