package cardproof.files;

import cardproof.plan.Marks;
import cardproof.text.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * What stands around a step: groups and calls.
 *
 * @param titles of the calls, the outermost first
 * @param tags of calls and groups
 * @param calledAt the innermost first
 * @param procedures being expanded, the outermost first
 */
record CallContext(
    List<String> titles, Set<String> tags, List<Position> calledAt, List<String> procedures) {
  static final CallContext TOP = new CallContext(List.of(), Set.of(), List.of(), List.of());

  CallContext tagged(Set<String> more) {
    return more.isEmpty() ? this : new CallContext(titles, union(more), calledAt, procedures);
  }

  CallContext in(Procedure procedure, Position call, Optional<String> title) {
    List<Position> calls = new ArrayList<>(List.of(call));
    calls.addAll(calledAt);
    return new CallContext(
        Stream.concat(titles.stream(), title.stream()).toList(),
        tags,
        List.copyOf(calls),
        Stream.concat(procedures.stream(), Stream.of(procedure.name())).toList());
  }

  String titled(String title) {
    return titles.isEmpty() ? title : String.join(": ", titles) + ": " + title;
  }

  Marks marks(Set<String> own, Optional<Boolean> sync) {
    boolean plain = tags.isEmpty() && own.isEmpty() && sync.isEmpty() && calledAt.isEmpty();
    return plain ? Marks.NONE : new Marks(union(own), sync, calledAt);
  }

  Set<String> union(Set<String> own) {
    return Stream.concat(tags.stream(), own.stream()).collect(Collectors.toSet());
  }

  /** Whether the step comes from a procedure. */
  boolean called() {
    return !calledAt.isEmpty();
  }

  Position outermostCall() {
    return calledAt.get(calledAt.size() - 1);
  }
}
