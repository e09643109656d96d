package cardproof.card;

/**
 * Where a line leaves the card.
 *
 * @param number counted as printed on the connector, from 1
 */
public record Pin(String connector, int number) {
  @Override
  public String toString() {
    return connector + "." + number;
  }
}
