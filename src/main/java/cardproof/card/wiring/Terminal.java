package cardproof.card.wiring;

/**
 * One solder point of a part.
 *
 * @param name within its part: {@code coil1}, {@code com2}, {@code anode}, {@code 1}
 * @param net number of its net in {@link Wiring#nets}, or {@link #NOT_WIRED}
 */
public record Terminal(String name, int net) {
  public static final int NOT_WIRED = -1;

  public boolean wired() {
    return net != NOT_WIRED;
  }
}
