package cardproof.text;

import java.util.List;
import java.util.stream.Collectors;

/** Something a user gave cannot be used; carries every problem found, never only the first. */
public final class RefusedException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final transient List<Problem> problems;

  public RefusedException(List<Problem> problems) {
    super(problems.stream().map(Problem::toString).collect(Collectors.joining("\n")));
    this.problems = List.copyOf(problems);
  }

  public RefusedException(Problem problem) {
    this(List.of(problem));
  }

  public List<Problem> problems() {
    return problems;
  }
}
