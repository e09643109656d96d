package cardproof.log;

import cardproof.text.Problem;

/** The bench log cannot be opened, read or written; the problem says why, and what to do. */
public final class LogException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final transient Problem problem;

  public LogException(Problem problem) {
    super(problem.toString());
    this.problem = problem;
  }

  public LogException(Problem problem, Throwable cause) {
    super(problem.toString(), cause);
    this.problem = problem;
  }

  public Problem problem() {
    return problem;
  }
}
