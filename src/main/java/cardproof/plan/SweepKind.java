package cardproof.plan;

/** What a sweep looks for; each is longer, the surer the card takes its data. */
public enum SweepKind {
  /** How long data must stand before the control line's edge; negative where it may come after. */
  SET_UP("set-up"),
  /** How long data must stand after that edge; negative where it may go before. */
  HOLD("hold"),
  /** How long the control line must stay after that edge before it goes back. */
  PULSE("pulse");

  private final String word;

  SweepKind(String word) {
    this.word = word;
  }

  /** As plans write it. */
  public String word() {
    return word;
  }
}
