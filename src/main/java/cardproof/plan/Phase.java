package cardproof.plan;

/** Which vector of a pattern with a pulse this is, or of a sweep. */
public enum Phase {
  PATTERN(""),
  PULSE_ON("pulse on"),
  PULSE_OFF("pulse off"),
  /** Puts the other word into the register. */
  PREPARE("prepare"),
  TRIAL("trial");

  private final String words;

  Phase(String words) {
    this.words = words;
  }

  public String words() {
    return words;
  }
}
