package cardproof.files;

import cardproof.text.Position;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Gathers what is wrong with one file while it is read. Not thread safe. */
final class Problems {
  /** More than anybody reads; a file of millions of mistakes must not fill the memory. */
  private static final int MOST = 1000;

  private static final int CALLS_SHOWN = 5;

  private record Placed(Position at, Problem problem) {}

  /**
   * @param changedLines of the procedure, in which the call's arguments stand
   */
  private record Call(Position at, Set<Position> changedLines) {}

  private final List<Placed> errors = new ArrayList<>();
  private final List<Placed> warnings = new ArrayList<>();
  private final List<Problem> errorsElsewhere = new ArrayList<>();
  private final List<Problem> warningsElsewhere = new ArrayList<>();
  private final Set<Problem> known = new HashSet<>();
  private final Set<Position> silenced = new HashSet<>();
  private final Deque<Call> calls = new ArrayDeque<>();
  private final String file;
  private int leftOut;

  /**
   * @param file what is wrong with this one is said before what is wrong with others
   */
  Problems(Path file) {
    this.file = file.toString();
  }

  void error(Position at, String found, String wanted, String next) {
    if (silenced.contains(at)) {
      return;
    }
    Problem problem = Problem.at(at, found + calledAt(at), wanted, next);
    if (known.contains(problem)) {
      return;
    }
    if (errors.size() == MOST) {
      leftOut++;
      return;
    }
    known.add(problem);
    errors.add(new Placed(at, problem));
  }

  /** A problem with a file as a whole, which has no line. */
  void fileError(String file, String found, String wanted, String next) {
    errors.add(new Placed(new Position(file, 0, 0), new Problem(file, found, wanted, next)));
  }

  void warn(Position at, String found, String wanted, String next) {
    Problem problem = Problem.at(at, found + calledAt(at), wanted, next);
    if (known.size() < 2 * MOST && known.add(problem)) {
      warnings.add(new Placed(at, problem));
    }
  }

  /**
   * From here on what is read is a procedure's, with the arguments of a call put in.
   *
   * @param changedLines in which they stand, as {@link #line} gives them; may still grow
   */
  void enter(Position call, Set<Position> changedLines) {
    calls.push(new Call(call, changedLines));
  }

  /** The end of what {@link #enter} began. */
  void leave() {
    calls.pop();
  }

  /** The line of a place. */
  static Position line(Position at) {
    return new Position(at.file(), at.line(), 1);
  }

  /** Which call it was, where what is wrong may hang on its arguments. */
  private String calledAt(Position at) {
    if (calls.isEmpty() || !calls.peek().changedLines().contains(line(at))) {
      return "";
    }
    String more = calls.size() > CALLS_SHOWN ? ", ...)" : ")";
    return calls.stream()
        .limit(CALLS_SHOWN)
        .map(call -> call.at().toString())
        .collect(Collectors.joining(", ", " (called at ", more));
  }

  /** What comes later about this place follows from what was already said about it. */
  void silence(Position at) {
    silenced.add(at);
  }

  /** Takes along what is wrong with another file that this one names. */
  void adoptErrors(List<Problem> others) {
    errorsElsewhere.addAll(others);
  }

  void adoptWarnings(List<Problem> others) {
    warningsElsewhere.addAll(others);
  }

  /** Errors so far, for telling whether some part of a file brought new ones. */
  int count() {
    return errors.size() + errorsElsewhere.size();
  }

  List<Problem> warnings() {
    return Stream.concat(sorted(warnings), warningsElsewhere.stream()).distinct().toList();
  }

  /**
   * @throws RefusedException with all errors, this file's first and sorted by place
   */
  void refuseIfAny() {
    if (count() == 0) {
      return;
    }
    Stream<Problem> own = sorted(errors);
    if (leftOut > 0) {
      Problem more =
          new Problem(
              file, leftOut + " more problems", "", "Put these right first, then look again");
      own = Stream.concat(own, Stream.of(more));
    }
    throw new RefusedException(Stream.concat(own, errorsElsewhere.stream()).distinct().toList());
  }

  private Stream<Problem> sorted(List<Placed> placed) {
    return placed.stream()
        .sorted(
            Comparator.comparing((Placed one) -> !one.at().file().equals(file))
                .thenComparing(Placed::at))
        .map(Placed::problem);
  }
}
