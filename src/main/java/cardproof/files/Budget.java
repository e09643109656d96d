package cardproof.files;

import cardproof.text.Position;

/** How far the calls of a plan may be expanded before its author is asked to think again. */
final class Budget {
  static final int MOST_STEPS = 100_000;
  static final int DEEPEST = 20;
  private static final int MOST_VALUES = 2_000_000;

  private final Problems problems;
  private int steps;
  private int values;
  private boolean stopped;

  Budget(Problems problems) {
    this.problems = problems;
  }

  /** Takes one step or call of a procedure. */
  void step() {
    steps++;
  }

  /** Takes one key or value of a procedure's steps; false where there is none left. */
  boolean value() {
    values++;
    return values <= MOST_VALUES;
  }

  /** Nothing more is to be expanded, and somebody has said why. */
  void stop() {
    stopped = true;
  }

  /**
   * Whether nothing more is to be expanded; says so once.
   *
   * @param call the outermost one that is being expanded
   */
  boolean spent(Position call) {
    if (steps <= MOST_STEPS && values <= MOST_VALUES) {
      return stopped;
    }
    if (!stopped) {
      stopped = true;
      problems.error(
          call,
          steps > MOST_STEPS
              ? "with this call the procedures stand for more than 100,000 steps"
              : "with this call the procedures stand for more than 2,000,000 keys and values",
          "",
          "Use 'repeat' or 'each' to say a thing many times");
    }
    return true;
  }
}
