package cardproof.plan;

/** Which vector of a pattern with a pulse this is. */
public enum Phase {
  PATTERN(""),
  PULSE_ON("pulse on"),
  PULSE_OFF("pulse off");

  private final String words;

  Phase(String words) {
    this.words = words;
  }

  public String words() {
    return words;
  }
}
