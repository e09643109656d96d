package cardproof.link;

import cardproof.text.Problem;
import java.util.Optional;

/** The fixture or the line to it failed; the problem says which, and what to do. */
public final class LinkException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final transient Problem problem;
  private final transient Status status;

  public LinkException(Problem problem) {
    this(problem, (Status) null);
  }

  LinkException(Problem problem, Status status) {
    super(problem.toString());
    this.problem = problem;
    this.status = status;
  }

  public LinkException(Problem problem, Throwable cause) {
    super(problem.toString(), cause);
    this.problem = problem;
    this.status = null;
  }

  public Problem problem() {
    return problem;
  }

  /** What the fixture said of itself, where it is its state that stands in the way. */
  public Optional<Status> status() {
    return Optional.ofNullable(status);
  }
}
