package cardproof.timing.history;

import cardproof.log.RunTransitions;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;

/** Numbers transitions from 1 on in the order in which they are met; 0 is one that is not known. */
final class TransitionIds {
  private final Map<Long, Integer> idOf = new HashMap<>();
  private long[] names = new long[256];
  private long[] runs = new long[256];
  private long[] vectors = new long[256];

  /** The ids of a run's vectors by number, from the first number on. */
  int[] of(long run, RunTransitions transitions) {
    int[] ids = new int[transitions.count()];
    for (int i = 0; i < ids.length; i++) {
      long vector = transitions.first() + i;
      long name = transitions.of(vector);
      ids[i] = name == RunTransitions.UNKNOWN ? 0 : id(name, run, vector);
    }
    return ids;
  }

  /** Takes those of another after its own, and says which id each of them has here. */
  int[] take(TransitionIds other) {
    int[] here = new int[other.count()];
    for (int id = 1; id < here.length; id++) {
      here[id] = id(other.names[id], other.runs[id], other.vectors[id]);
    }
    return here;
  }

  private int id(long name, long run, long vector) {
    Integer known = idOf.get(name);
    if (known != null) {
      return known;
    }
    int id = idOf.size() + 1;
    idOf.put(name, id);
    if (id >= names.length) {
      int more = 2 * names.length;
      names = Arrays.copyOf(names, more);
      runs = Arrays.copyOf(runs, more);
      vectors = Arrays.copyOf(vectors, more);
    }
    names[id] = name;
    runs[id] = run;
    vectors[id] = vector;
    return id;
  }

  /** How many ids there are, that of the unknown one among them. */
  int count() {
    return idOf.size() + 1;
  }

  long name(int id) {
    return names[id];
  }

  /** A run with this transition, the first that was met. */
  long run(int id) {
    return runs[id];
  }

  /** The first vector with it in that run. */
  long vector(int id) {
    return vectors[id];
  }
}
