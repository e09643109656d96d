package cardproof.card.fault;

/**
 * The pin at which the supply comes in or goes back, where the file names it.
 *
 * @param pin {@code J9.1}
 * @param net that leaves there
 */
public record PinSite(String pin, String net) implements Site {
  @Override
  public String name() {
    return pin;
  }
}
