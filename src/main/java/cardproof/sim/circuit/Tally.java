package cardproof.sim.circuit;

/** Counts of what the engine has done, for benchmarks and for doubts. */
final class Tally {
  /** Instants at which switches changed and something had to be worked out. */
  long evaluations;

  /** Evaluations in which reachability alone did not do. */
  long weakEvaluations;

  /** Groups worked out by nodal analysis, and those of them found in the memo. */
  long groups;

  long fromMemo;

  /** Groups whose diodes did not fall into place in the plain rounds. */
  long slowGroups;

  int mostRounds;

  void add(Tally other) {
    evaluations += other.evaluations;
    weakEvaluations += other.weakEvaluations;
    groups += other.groups;
    fromMemo += other.fromMemo;
    slowGroups += other.slowGroups;
    mostRounds = Math.max(mostRounds, other.mostRounds);
  }
}
