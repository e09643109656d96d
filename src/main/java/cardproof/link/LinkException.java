package cardproof.link;

import cardproof.text.Problem;

/** The fixture or the line to it failed; the problem says which, and what to do. */
public final class LinkException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final transient Problem problem;

  public LinkException(Problem problem) {
    super(problem.toString());
    this.problem = problem;
  }

  public LinkException(Problem problem, Throwable cause) {
    super(problem.toString(), cause);
    this.problem = problem;
  }

  public Problem problem() {
    return problem;
  }
}
