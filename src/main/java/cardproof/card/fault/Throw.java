package cardproof.card.fault;

/** The two ways that a change-over contact can lie. */
public enum Throw {
  NO("no"),
  NC("nc");

  private final String word;

  Throw(String word) {
    this.word = word;
  }

  /** Name of the terminal on a pole, counted from 1: {@code no2}. */
  public String terminal(int pole) {
    return word + pole;
  }

  public Throw other() {
    return this == NO ? NC : NO;
  }
}
