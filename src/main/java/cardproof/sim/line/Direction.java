package cardproof.sim.line;

/** Which way bytes go. */
public enum Direction {
  TO_FIXTURE("fixture"),
  TO_HOST("host");

  private final String end;

  Direction(String end) {
    this.end = end;
  }

  /** What it leads to, as a fault names it. */
  String end() {
    return end;
  }
}
