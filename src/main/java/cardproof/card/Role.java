package cardproof.card;

/** Which way a bus goes, seen from the card. */
public enum Role {
  /** Driven by the fixture. */
  INPUT,
  /** Driven by the card, watched by the fixture. */
  OUTPUT,
  /** Driven by either, watched by the fixture. */
  SHARED;

  public boolean driven() {
    return this != OUTPUT;
  }

  public boolean watched() {
    return this != INPUT;
  }
}
