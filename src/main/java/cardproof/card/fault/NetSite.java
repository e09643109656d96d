package cardproof.card.fault;

/**
 * A net that is not a line. Its name stands behind the word {@code net}, because a net may be
 * called like a part or like what is printed beside a line.
 */
public record NetSite(String net) implements Site {
  static final String NET = "net ";

  @Override
  public String name() {
    return NET + net;
  }
}
