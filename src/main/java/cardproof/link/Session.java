package cardproof.link;

import cardproof.link.FrameLine.Received;
import java.util.Optional;
import java.util.random.RandomGenerator;

/**
 * One session from OPEN to its drop: takes frames in, sends what is due, and says what happened.
 * Never waits.
 */
final class Session {
  private static final int NO_STEP = -1;

  private final FrameLine line;
  private final Lease lease;
  private final int number;
  private final long silenceNs;
  private final StepWindow window;
  private final StepSender sender;
  private final MissingResults missing;
  private final MissingEdges missingEdges;
  private final HungWatch hung;
  private final Hold hold = new Hold();
  private final Drop drop;
  private Optional<Status> latest = Optional.empty();
  private Optional<Asking> statusAsking = Optional.empty();
  private long statuses;
  private boolean armed;
  private long spokeNs;
  private final SupplyNews supply = new SupplyNews();

  /** The last step that has to end before another may be sent, or -1. */
  private int aloneUntil = NO_STEP;

  /** The last step with capture, whose edges the fixture keeps until it is acknowledged. */
  private int capturedLast = NO_STEP;

  /**
   * A session that nothing is known of yet.
   *
   * @param first number of the first step that is of interest
   */
  Session(
      FrameLine line,
      Lease lease,
      HelloReply hello,
      int number,
      int first,
      int silenceMs,
      RandomGenerator random) {
    this.line = line;
    this.lease = lease;
    this.number = number;
    this.silenceNs = LinkTimes.ofMs(silenceMs);
    this.spokeNs = line.nowNs();
    this.window = new StepWindow(hello.slots(), first, spokeNs);
    this.sender = new StepSender(line, window);
    this.missing = new MissingResults(line, window, this::ask);
    this.missingEdges = new MissingEdges(line, window, this::ask);
    this.hung = new HungWatch(line, window, sender);
    this.drop = new Drop(line, hello.boot(), number, random, this::beat);
  }

  int number() {
    return number;
  }

  StepWindow window() {
    return window;
  }

  /** How many STATUS frames of this session came that were not older than one before. */
  long statuses() {
    return statuses;
  }

  /** Set once the fixture was reset, or taken by another host. */
  Optional<HelloReply> newBoot() {
    return drop.reply();
  }

  /**
   * Ends a session of which only the results are wanted: whatever steps there are, they are the
   * fixture's already.
   */
  void end() {
    window.fill();
    drop.endWith(() -> ask(new Stop()));
  }

  boolean isLive() {
    return !drop.isNoticed();
  }

  /** Room for a step that is not to be alone in the fixture. */
  boolean hasRoom() {
    return isLive() && !hold.isHeld() && window.hasRoom() && window.finished() > aloneUntil;
  }

  /** Whether this step may be handed over now. */
  boolean hasRoomFor(StepRequest request) {
    boolean clear = !request.alone() || window.finished() == window.next();
    return hasRoom() && clear && !(request.capture() && window.acked() <= capturedLast);
  }

  byte[] beatFrame() {
    return line.encode(number, new Beat(window.acked()));
  }

  void ask(Message message) {
    spokeNs = line.nowNs();
    line.ask(number, message);
  }

  void beat() {
    ask(new Beat(window.acked()));
  }

  /** How often the fixture has said that its supply switch stands so. */
  long supplyReplies(boolean on) {
    return supply.replies(on);
  }

  /** How often it has told rail and current. */
  long senses() {
    return supply.senses();
  }

  Optional<Sense> lastSense() {
    return supply.lastSense();
  }

  /** Whether the last status showed live drives. */
  boolean isInLiveState() {
    return latest
        .map(Status::state)
        .filter(state -> state.runsSteps() || state == FixtureState.HELD)
        .isPresent();
  }

  /** Whether it was ended by silence, in the boot it was opened in, before any step was given. */
  boolean fellSilentUnused() {
    return !drop.isNewBoot()
        && window.next() == 0
        && latest.filter(status -> status.cause() == DropCause.SILENCE).isPresent();
  }

  /** Whether the fixture has gone on after it held at this step. */
  boolean hasLeftHold(int step) {
    return window.finished() > step + 1
        || latest.map(Status::state).filter(FixtureState::runsSteps).isPresent();
  }

  void armed() {
    armed = true;
    window.restart(line.nowNs());
  }

  void resumed(int step) {
    hold.resumed(step);
    window.restart(line.nowNs());
  }

  int submit(StepRequest request) {
    int step = window.next();
    byte[] frame = line.encode(number, request.numbered(step));
    window.add(new Slot(step, frame, LinkTimes.ofUs(request.watchUs()), request.capture()));
    if (request.alone()) {
      aloneUntil = step;
    }
    if (request.capture()) {
      capturedLast = step;
    }
    pump(line.nowNs());
    return step;
  }

  void take(Received received) {
    long nowNs = line.nowNs();
    Frame frame = received.frame();
    Message message = frame.message();
    if (message instanceof HelloReply reply) {
      drop.take(frame.session(), reply);
    } else if (message instanceof Status status) {
      if (!drop.isSameBoot(status)) {
        suspectBoot(nowNs);
      } else if (frame.session() == number) {
        takeStatus(status, received.sinceNs(), nowNs);
      }
    } else if (message instanceof Nack nack) {
      line.tally().nacks++;
      takeNack(frame.session(), nack, nowNs);
    } else if (message instanceof Result result && frame.session() == number) {
      takeResult(result, received.sinceNs(), nowNs);
    } else if (message instanceof Edges edges && frame.session() == number) {
      window.take(edges);
    } else if (frame.session() == number) {
      supply.take(message);
    }
  }

  /** What there is to tell, most urgent first. */
  Optional<LinkEvent> nextEvent() {
    Optional<LinkEvent.ResultArrived> result = window.deliver();
    if (result.isPresent()) {
      return result.map(LinkEvent.class::cast);
    }
    boolean allGiven = window.delivered() >= window.finished();
    if (drop.isOver(allGiven)) {
      return Optional.of(new LinkEvent.Dropped(drop.status()));
    }
    return hold.event(window.delivered()).map(LinkEvent.Held::new);
  }

  boolean hasEvent() {
    boolean allGiven = window.delivered() >= window.finished();
    return window.hasResult() || drop.isOver(allGiven) || hold.isDue(window.delivered());
  }

  Optional<HungWatch.Hung> hung() {
    return hung.found();
  }

  /** Asks only what a drop makes necessary; returns when to look again. */
  long tendDrop(long nowNs) {
    return drop.tend(nowNs);
  }

  /** How things were when the session ended, or last. */
  Optional<Status> lastStatus() {
    return drop.isNewBoot() ? Optional.of(drop.status()) : latest;
  }

  /** Sends whatever is due; returns when to look again. */
  long tend(long nowNs) {
    if (drop.isNewBoot()) {
      return Long.MAX_VALUE;
    }
    long due = Math.min(drop.tend(nowNs), missing.tend(nowNs));
    due = Math.min(due, missingEdges.tend(nowNs));
    if (isLive()) {
      pump(nowNs);
      due = Math.min(due, tendStatus(nowNs));
      if (armed && !hold.isHeld()) {
        due = Math.min(due, hung.tend(nowNs, this::beat, latest, statuses));
      }
    }
    return due;
  }

  private void pump(long nowNs) {
    int before = sender.sent();
    sender.pump(nowNs);
    if (sender.sent() > before) {
      spokeNs = nowNs;
    }
  }

  /**
   * Asks how the fixture is when a hold was not reported, and when the lease ran out so long ago
   * that the drives must be down and asking cannot hold them any longer.
   */
  private long tendStatus(long nowNs) {
    long silentNs = Math.max(spokeNs, lease.untilNs()) + silenceNs + LinkTimes.REQUEST_NS;
    boolean silent = !lease.runs(nowNs) && nowNs >= silentNs;
    if (statusAsking.isEmpty() && (silent || hold.lacksStatus())) {
      long firstNs = silent ? nowNs : nowNs + LinkTimes.BEHIND_NS;
      statusAsking = Optional.of(line.asking("BEAT", firstNs, LinkTimes.RUNNING_TRIES, this::beat));
    }
    statusAsking.ifPresent(asking -> asking.tend(nowNs));
    return statusAsking.map(Asking::dueNs).orElse(lease.runs(nowNs) ? lease.untilNs() : silentNs);
  }

  private void takeStatus(Status status, long sinceNs, long nowNs) {
    if (!window.observe(status.next(), status.finished(), nowNs)) {
      return;
    }
    if (latest.isPresent() && status.nowUs() < latest.get().nowUs()) {
      return;
    }
    latest = Optional.of(status);
    statuses++;
    statusAsking = Optional.empty();
    drop.take(status);
    hold.take(status);
    if (isLive()) {
      hung.take(status);
      sender.observe(status.next(), sinceNs, nowNs);
    }
  }

  private void takeResult(Result result, long sinceNs, long nowNs) {
    if (!window.observe(result.next(), result.number() + 1, nowNs)) {
      return;
    }
    window.take(result, nowNs);
    if (result.has(ResultFlag.MISSED)) {
      hold.missed(result.number());
    }
    if (isLive()) {
      sender.observe(result.next(), sinceNs, nowNs);
    }
  }

  private void takeNack(int session, Nack nack, long nowNs) {
    if (nack.reason() == NackReason.WRONG_SESSION) {
      suspectBoot(nowNs);
    } else if (session == number && nack.reason() == NackReason.WRONG_STATE && isLive()) {
      drop.suspect(nowNs);
    } else if (session == number && isStep(nack.refusedType()) && isLive()) {
      takeStepNack(nack, nowNs);
    }
  }

  /** Before the first status OPEN may still be on its way, and another session rightly in place. */
  private void suspectBoot(long nowNs) {
    if (latest.isPresent() || !isLive()) {
      drop.suspectBoot(nowNs);
    }
  }

  private void takeStepNack(Nack nack, long nowNs) {
    if (nack.next() < window.taken() || !window.observe(nack.next(), 0, nowNs)) {
      return;
    }
    switch (nack.reason()) {
      case OUT_OF_ORDER -> fillGap(nowNs);
      case NO_SLOT_FREE -> {
        if (sender.isGapNews(nowNs)) {
          beat();
          fillGap(nowNs);
        }
      }
      default -> throw LinkProblems.refused(line.name(), "step " + nack.next(), nack);
    }
  }

  private static boolean isStep(int type) {
    return type == Types.STEP || type == Types.SEQUENCE;
  }

  private void fillGap(long nowNs) {
    if (sender.isGapNews(nowNs)) {
      sender.goBack(nowNs);
    }
  }
}
