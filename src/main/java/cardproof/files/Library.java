package cardproof.files;

import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** The set words and procedures that the steps of a plan may use. Not thread safe. */
final class Library {
  private final SetNames setNames = new SetNames();
  private final Map<String, Procedure> procedures = new LinkedHashMap<>();
  private final Set<String> broken = new HashSet<>();
  private final Set<String> called = new HashSet<>();
  private final Budget budget;

  Library(Problems problems) {
    this.budget = new Budget(problems);
  }

  SetNames setNames() {
    return setNames;
  }

  Budget budget() {
    return budget;
  }

  void add(Procedure procedure) {
    procedures.put(procedure.name(), procedure);
  }

  /** A procedure that could not be read: calls of it are not wrong for that. */
  void addBroken(String name) {
    broken.add(name);
  }

  boolean isBroken(String name) {
    return broken.contains(name);
  }

  Optional<Procedure> procedure(String name) {
    return Optional.ofNullable(procedures.get(name));
  }

  Set<String> procedureNames() {
    return new TreeSet<>(procedures.keySet());
  }

  void called(Procedure procedure) {
    called.add(procedure.name());
  }

  /** Procedures that no step has called, in the order read. */
  List<Procedure> neverCalled() {
    return procedures.values().stream().filter(p -> !called.contains(p.name())).toList();
  }
}
