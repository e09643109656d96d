package cardproof.sim;

import cardproof.link.Result;
import cardproof.link.ResultFlag;
import cardproof.link.Step;
import cardproof.link.Switching;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;

/**
 * The one step that is running: starts it, finds out when it has to end, and makes its result. See
 * {@code firmware-notes/protocol.md}, section 6.
 */
final class StepRun {
  private static final int NS_PER_US = 1000;

  private final EventQueue queue;
  private final Sampler sampler;
  private final Observer observer;
  private final Drives drives;
  private final int blindUs;
  private final Optional<SupplySense> sense;
  private final Runnable timeIsUp;
  private final Runnable switched;
  private final EventQueue.Timer timer;
  private final BitSet differing = new BitSet();
  private Step step;
  private List<Switching> entries = List.of();
  private int nextEntry;
  private BitSet before;
  private BitSet stirred;
  private BitSet atDwell;
  private long startNs;
  private long watchEndNs;
  private long dwellAtNs;
  private boolean running;

  /**
   * @param blindUs longest time between two samples
   * @param sense of the supply, where the fixture has one
   * @param timeIsUp is called when the running step has to end
   * @param switched is called when an entry of the running sequence was switched
   */
  StepRun(
      EventQueue queue,
      Sampler sampler,
      Observer observer,
      Drives drives,
      int blindUs,
      Optional<SupplySense> sense,
      Runnable timeIsUp,
      Runnable switched) {
    this.queue = queue;
    this.sampler = sampler;
    this.observer = observer;
    this.drives = drives;
    this.blindUs = blindUs;
    this.sense = sense;
    this.timeIsUp = timeIsUp;
    this.switched = switched;
    this.timer = queue.timer(this::due);
  }

  /**
   * @param later what the drives become in the course of it, in rising order of time
   */
  void start(Step next, List<Switching> later) {
    step = next;
    entries = later;
    nextEntry = 0;
    running = true;
    before = (BitSet) sampler.levels().clone();
    stirred = (BitSet) observer.stirred().clone();
    atDwell = new BitSet();
    startNs = queue.nowNs();
    watchEndNs = startNs + step.watchUs() * NS_PER_US;
    dwellAtNs = step.dwell() ? startNs + step.dwellUs() * NS_PER_US : EventQueue.NEVER;
    differing.clear();
    differing.or(before);
    differing.xor(step.expect());
    differing.and(step.care());
    observer.startStep(startNs);
    sense.ifPresent(SupplySense::restart);
    drives.set(step.level(), step.enable());
    timer.cancel();
    plan();
  }

  /** A watch is at the other level now. */
  void changed(int watch) {
    if (running && step.care().get(watch)) {
      differing.flip(watch);
    }
  }

  /** Changes were seen, so the end may have come nearer. */
  void sampled() {
    if (running) {
      plan();
    }
  }

  /**
   * Ends the step now.
   *
   * @param cut flags that say why, when it did not end of itself, else 0; {@code next} is for the
   *     sender to fill in
   */
  Result end(int cut) {
    timer.cancel();
    running = false;
    long nowNs = queue.nowNs();
    int flags = cut | outcome(nowNs) | (atDwellTaken() ? ResultFlag.DWELL_SAMPLED.bit() : 0);
    if (cut == 0) {
      flags |= nowNs < watchEndNs ? ResultFlag.EARLY.bit() : 0;
      flags |= step.gate() && missed(flags) ? ResultFlag.MISSED.bit() : 0;
    }
    Result result =
        new Result(
            step.number(),
            0,
            flags,
            startNs / NS_PER_US,
            (nowNs - startNs) / NS_PER_US,
            0,
            observer.gapNs() / NS_PER_US,
            blindUs,
            before,
            (BitSet) sampler.levels().clone(),
            atDwell,
            (BitSet) observer.unstable().clone(),
            new BitSet(),
            stirred,
            observer.moved().cardinality(),
            0,
            observer.entries(),
            sense.map(SupplySense::ofStep));
    observer.endStep();
    return result;
  }

  private int outcome(long nowNs) {
    boolean quiet = nowNs - observer.lastEventNs() >= step.quietUs() * NS_PER_US;
    return (quiet ? ResultFlag.QUIET.bit() : 0)
        | (differing.isEmpty() ? ResultFlag.MATCHED.bit() : 0);
  }

  private boolean missed(int flags) {
    int good = ResultFlag.QUIET.bit() | ResultFlag.MATCHED.bit();
    return (flags & good) != good
        || observer.lastChangeNs() - startNs > step.limitUs() * NS_PER_US
        || observer.moved().intersects(step.still());
  }

  private boolean atDwellTaken() {
    return step.dwell() && dwellAtNs == EventQueue.NEVER;
  }

  private void due() {
    sampler.catchUp();
    if (running && queue.nowNs() >= Math.min(dwellAtNs, entryNs())) {
      sampler.sample();
    }
    if (running && queue.nowNs() >= dwellAtNs) {
      observer.dwell(queue.nowNs());
      atDwell = (BitSet) sampler.levels().clone();
      dwellAtNs = EventQueue.NEVER;
    }
    if (running && queue.nowNs() >= entryNs()) {
      switchEntry();
    }
    if (!running) {
      return;
    }
    if (queue.nowNs() >= endNs()) {
      timeIsUp.run();
    } else {
      plan();
    }
  }

  private void switchEntry() {
    Switching entry = entries.get(nextEntry++);
    observer.switched(queue.nowNs());
    drives.set(entry.level(), entry.enable());
    switched.run();
  }

  /** When the next entry is to be switched. */
  private long entryNs() {
    return nextEntry == entries.size()
        ? EventQueue.NEVER
        : startNs + entries.get(nextEntry).atUs() * NS_PER_US;
  }

  /** Asks to be woken. A time that is asked for too early is put right when it comes. */
  private void plan() {
    long dueNs = Math.min(Math.min(dwellAtNs, entryNs()), endNs());
    if (dueNs < timer.dueNs()) {
      timer.at(dueNs);
    }
  }

  private long endNs() {
    boolean mayEndEarly =
        !step.audit() && !step.dwell() && nextEntry == entries.size() && differing.isEmpty();
    return mayEndEarly
        ? Math.min(watchEndNs, observer.lastEventNs() + step.quietUs() * NS_PER_US)
        : watchEndNs;
  }
}
