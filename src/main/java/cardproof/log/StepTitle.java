package cardproof.log;

import java.util.Objects;

/**
 * One step of a plan, as far as a reader of the log needs it.
 *
 * @param step index in the plan as expanded, from 0
 * @param file where it is written
 * @param line in that file, from 1
 * @param title its title; may be empty
 * @param calledAt {@code file:line} of the calls it comes from, the innermost first, with commas
 *     between; empty where it comes from none
 */
public record StepTitle(int step, String file, int line, String title, String calledAt) {
  public StepTitle {
    Objects.requireNonNull(file);
    Objects.requireNonNull(title);
    Objects.requireNonNull(calledAt);
    if (step < 0) {
      throw new IllegalArgumentException("step " + step);
    }
  }

  /** A step that comes from no call. */
  public StepTitle(int step, String file, int line, String title) {
    this(step, file, line, title, "");
  }

  /** {@code file:line#index}, and the calls it comes from, by which a user finds a vector again. */
  public String origin(long indexInStep) {
    return file
        + ":"
        + line
        + "#"
        + (indexInStep + 1)
        + (calledAt.isEmpty() ? "" : " (called at " + calledAt + ")");
  }
}
