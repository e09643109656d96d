package cardproof.sim;

import cardproof.link.DropCause;
import cardproof.link.FixtureState;
import cardproof.link.Open;
import cardproof.link.Protocol;
import cardproof.link.Result;
import cardproof.link.ResultFlag;
import cardproof.link.Step;
import cardproof.link.Switching;
import java.util.List;
import java.util.Optional;
import java.util.function.IntConsumer;

/**
 * The states of a fixture and everything that moves it from one to another, as {@code
 * firmware-notes/protocol.md}, sections 4 and 6, has them. Says when something happens of its own
 * accord; answers are not made here.
 */
final class Machine implements Sampler.Watcher {
  private static final long NS_PER_MS = 1_000_000;
  private static final long NS_PER_US = 1000;

  private final EventQueue queue;
  private final Slots slots;
  private final Observer observer;
  private final Sampler sampler;
  private final Drives drives;
  private final EdgeLog edges;
  private final StepRun run;
  private final boolean switched;
  private final Optional<SupplySense> sense;
  private boolean supplyOn = true;
  private final Reports reports;
  private final EventQueue.Timer silence;
  private final EventQueue.Timer hold;
  private FixtureState state = FixtureState.SAFE;
  private DropCause cause = DropCause.NEVER_LIVE;
  private int chattering = Protocol.NO_WATCH;
  private long silenceNs;
  private long holdNs;
  private long heardNs;
  private long heldSinceNs = EventQueue.NEVER;
  private IntConsumer stepStarted = number -> {};

  Machine(EventQueue queue, Circuit circuit, Channels channels, Identity identity, Reports to) {
    this.queue = queue;
    this.reports = to;
    this.slots = new Slots(identity.slots());
    this.observer = new Observer(channels.watches());
    this.sampler = new Sampler(queue, circuit, channels, identity.periodNs(), this);
    this.drives = new Drives(queue, channels, sampler);
    this.edges = new EdgeLog(identity.mostEdges());
    this.switched = identity.canSwitchSupply();
    this.sense =
        identity.senses()
            ? sampler
                .meter()
                .map(meter -> new SupplySense(identity.supply(), meter, sampler::bringUp))
            : Optional.empty();
    this.run =
        new StepRun(
            queue,
            sampler,
            observer,
            drives,
            identity.blindUs(),
            sense,
            this::stepEnds,
            this::patternSwitched);
    this.silence = queue.timer(this::silenceDue);
    this.hold = queue.timer(this::holdDue);
  }

  FixtureState state() {
    return state;
  }

  DropCause cause() {
    return cause;
  }

  /** The watch that chattered, or {@link Protocol#NO_WATCH}. */
  int chattering() {
    return chattering;
  }

  Slots slots() {
    return slots;
  }

  Observer observer() {
    return observer;
  }

  Sampler sampler() {
    return sampler;
  }

  Drives drives() {
    return drives;
  }

  EdgeLog edges() {
    return edges;
  }

  /** Who is told of each step as soon as its drives have switched. */
  void onStep(IntConsumer listener) {
    stepStarted = listener;
  }

  /** As after a reset: SAFE, nothing kept. */
  void reset() {
    fall(FixtureState.SAFE, DropCause.NEVER_LIVE, 0);
    if (switched) {
      power(false);
    }
    slots.clear();
    edges.clear();
    chattering = Protocol.NO_WATCH;
  }

  void open(Open open) {
    fall(FixtureState.OPENED, DropCause.OPEN, 0);
    slots.clear();
    edges.clear();
    chattering = Protocol.NO_WATCH;
    observer.open(
        open.watches(), open.chatterMoves(), open.chatterChanges(), open.moveRestUs() * NS_PER_US);
    silenceNs = open.silenceMs() * NS_PER_MS;
    holdNs = open.holdMs() * NS_PER_MS;
    heard();
    silence.at(heardNs + silenceNs);
  }

  /** A valid frame of this session came. */
  void heard() {
    heardNs = queue.nowNs();
  }

  /** OPENED becomes READY; {@link #startNext} is then to be called. */
  void arm() {
    if (state == FixtureState.OPENED) {
      state = FixtureState.READY;
    }
  }

  /** Back to SAFE from wherever something may still run. */
  void stop() {
    if (isOpen()) {
      fall(FixtureState.SAFE, DropCause.STOP, ResultFlag.STOPPED.bit());
    }
  }

  /** HELD at this step becomes READY; {@link #startNext} is then to be called. */
  void resume(int number) {
    if (state == FixtureState.HELD && number == slots.finished() - 1) {
      state = FixtureState.READY;
    }
  }

  /**
   * @param later what its drives become in the course of it
   */
  void queue(Step step, List<Switching> later) {
    slots.queue(step, later);
    startNext();
  }

  /** Forgets what is kept of the steps below this number, which must have ended. */
  void acknowledge(int below) {
    slots.acknowledge(below);
    edges.acknowledge(below);
  }

  /** Whether the supply may be switched: nothing queued, nothing running. */
  boolean maySwitchSupply() {
    boolean state =
        this.state == FixtureState.OPENED
            || this.state == FixtureState.READY
            || this.state == FixtureState.HELD;
    return state && !slots.isBusy();
  }

  /** The drives are released first, and stay so; switching to what it is changes nothing. */
  void switchSupply(boolean on) {
    if (supplyOn != on) {
      drives.drop();
      heldSinceNs = EventQueue.NEVER;
      hold.cancel();
      power(on);
    }
  }

  private void power(boolean on) {
    supplyOn = on;
    sampler.power(on);
  }

  boolean supplyOn() {
    return supplyOn;
  }

  /** What it measures of the supply, where it does. */
  Optional<SupplySense> sense() {
    return sense;
  }

  /** Starts the next step if one is queued and the state allows. */
  void startNext() {
    if (state != FixtureState.READY) {
      return;
    }
    if (sampler.supplyTripped()) {
      trip(DropCause.SUPPLY);
    } else if (slots.hasQueued()) {
      state = FixtureState.RUN;
      heldSinceNs = queue.nowNs();
      if (hold.dueNs() == EventQueue.NEVER) {
        hold.at(heldSinceNs + holdNs);
      }
      Step step = slots.start();
      if (step.capture()) {
        edges.start(step.number(), heldSinceNs);
      }
      run.start(step, slots.entries());
      stepStarted.accept(step.number());
    }
  }

  boolean isOpen() {
    return state == FixtureState.OPENED || isLive();
  }

  private boolean isLive() {
    return state == FixtureState.READY || state == FixtureState.RUN || state == FixtureState.HELD;
  }

  @Override
  public void changed(long nowNs, int watch) {
    observer.changed(nowNs, watch);
    if (observer.isWatched(watch)) {
      edges.changed(nowNs, watch, sampler.levels().get(watch));
    }
    run.changed(watch);
  }

  @Override
  public void sampled(long nowNs) {
    if (isLive() && sampler.supplyTripped()) {
      trip(DropCause.SUPPLY);
    } else if (isLive() && observer.chattering() != Observer.NONE) {
      chattering = observer.chattering();
      trip(DropCause.CHATTER);
    } else {
      run.sampled();
    }
  }

  /** Another pattern is held from now on. */
  private void patternSwitched() {
    heldSinceNs = queue.nowNs();
  }

  private void stepEnds() {
    Result result = run.end(0);
    edges.end();
    boolean missed = result.has(ResultFlag.MISSED);
    state = missed ? FixtureState.HELD : FixtureState.READY;
    slots.finish(result);
    reports.result(result);
    if (missed) {
      reports.status();
    } else {
      startNext();
    }
  }

  private void silenceDue() {
    long dueNs = heardNs + silenceNs;
    if (!isOpen()) {
      return;
    }
    if (queue.nowNs() < dueNs) {
      silence.at(dueNs);
    } else {
      sampler.catchUp();
      dropOfItself(FixtureState.SAFE, DropCause.SILENCE, ResultFlag.STOPPED);
    }
  }

  private void holdDue() {
    if (!isLive() || heldSinceNs == EventQueue.NEVER) {
      return;
    }
    if (queue.nowNs() < heldSinceNs + holdNs) {
      hold.at(heldSinceNs + holdNs);
    } else {
      sampler.catchUp();
      if (isLive()) {
        trip(DropCause.HOLD_LIMIT);
      }
    }
  }

  /** A supply that tripped is off, and so is its switch. */
  private void trip(DropCause why) {
    dropOfItself(FixtureState.TRIPPED, why, ResultFlag.TRIPPED);
    if (switched && why == DropCause.SUPPLY) {
      power(false);
    }
  }

  private void dropOfItself(FixtureState to, DropCause why, ResultFlag flag) {
    if (isOpen()) {
      fall(to, why, flag.bit());
      reports.status();
    }
  }

  /**
   * Drops every drive at once, before anything else, and ends the running step.
   *
   * @param cut flag of its result; 0 where nobody is to hear of it
   */
  private void fall(FixtureState to, DropCause why, int cut) {
    boolean running = state == FixtureState.RUN;
    drives.drop();
    cause = why;
    state = to;
    silence.cancel();
    hold.cancel();
    heldSinceNs = EventQueue.NEVER;
    if (running) {
      Result result = run.end(cut);
      edges.end();
      slots.finish(result);
      if (cut != 0) {
        reports.result(result);
      }
    }
  }
}
