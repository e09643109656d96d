package cardproof.log;

import java.util.Objects;

/**
 * One step of a plan, as far as a reader of the log needs it.
 *
 * @param step index in the plan as expanded, from 0
 * @param file where it is written
 * @param line in that file, from 1
 * @param title its title; may be empty
 */
public record StepTitle(int step, String file, int line, String title) {
  public StepTitle {
    Objects.requireNonNull(file);
    Objects.requireNonNull(title);
    if (step < 0) {
      throw new IllegalArgumentException("step " + step);
    }
  }
}
