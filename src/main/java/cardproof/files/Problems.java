package cardproof.files;

import cardproof.text.Position;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;

/** Gathers what is wrong with one file while it is read. Not thread safe. */
final class Problems {
  /** More than anybody reads; a file of millions of mistakes must not fill the memory. */
  private static final int MOST = 1000;

  private record Placed(Position at, Problem problem) {}

  private final List<Placed> errors = new ArrayList<>();
  private final List<Placed> warnings = new ArrayList<>();
  private final List<Problem> errorsElsewhere = new ArrayList<>();
  private final List<Problem> warningsElsewhere = new ArrayList<>();
  private final Set<Position> silenced = new HashSet<>();
  private int leftOut;

  void error(Position at, String found, String wanted, String next) {
    if (silenced.contains(at)) {
      return;
    }
    if (errors.size() == MOST) {
      leftOut++;
      return;
    }
    errors.add(new Placed(at, Problem.at(at, found, wanted, next)));
  }

  /** A problem with a file as a whole, which has no line. */
  void fileError(String file, String found, String wanted, String next) {
    errors.add(new Placed(new Position(file, 0, 0), new Problem(file, found, wanted, next)));
  }

  void warn(Position at, String found, String wanted, String next) {
    warnings.add(new Placed(at, Problem.at(at, found, wanted, next)));
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
      String file = errors.get(0).at().file();
      Problem more =
          new Problem(
              file, leftOut + " more problems", "", "Put these right first, then look again");
      own = Stream.concat(own, Stream.of(more));
    }
    throw new RefusedException(Stream.concat(own, errorsElsewhere.stream()).distinct().toList());
  }

  private static Stream<Problem> sorted(List<Placed> placed) {
    return placed.stream().sorted(Comparator.comparing(Placed::at)).map(Placed::problem);
  }
}
