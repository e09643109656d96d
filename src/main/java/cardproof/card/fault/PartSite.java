package cardproof.card.fault;

/** A part as a whole. */
public record PartSite(String part) implements Site {
  @Override
  public String name() {
    return part;
  }
}
