package cardproof.files;

import cardproof.text.Position;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Steps under a name, to be called.
 *
 * @param arguments in the order written, each with the value it has where a call gives none
 * @param steps as written, arguments not yet put in
 */
record Procedure(
    String name, Position at, Map<String, Optional<String>> arguments, List<Node> steps) {
  /** Whether it can be called with nothing given. */
  boolean needsNothing() {
    return arguments.values().stream().allMatch(Optional::isPresent);
  }
}
