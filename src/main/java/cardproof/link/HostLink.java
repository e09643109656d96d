package cardproof.link;

import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.random.RandomGenerator;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The host's end of a link: runs every step exactly once within one boot of the fixture, whatever
 * the line loses, repeats, damages or delays, and hands every result out once and in order.
 *
 * <p>Written for {@code firmware-notes/protocol.md}, sections 2 to 7; go-back-N over a window of
 * the fixture's slots. The wire is its only source of bytes and time. One thread uses a link. Every
 * wait is bounded: by its deadline, or by the limits of section 7. Whatever throws {@link
 * LinkException} leaves the link good for {@link #stop} and {@link #close} only.
 *
 * <p>The wire belongs to the caller, who closes it after the link.
 */
public final class HostLink implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(HostLink.class);
  private static final int OPEN_TRIES = 3;

  private final FrameLine line;
  private final Lease lease;
  private final RandomGenerator random;
  private final Conversation talk;
  private HelloReply hello;
  private int placeSession;
  private volatile byte[] stopFrame = {};

  private HostLink(FrameLine line, Lease lease, RandomGenerator random, HelloReply hello) {
    this.line = line;
    this.lease = lease;
    this.random = random;
    this.talk = new Conversation(line, lease);
    adopt(hello);
  }

  /**
   * Says HELLO, for a second at most.
   *
   * @param random source of the numbers that tell sessions apart
   * @throws LinkException nothing or something else answers, or another major version
   */
  public static HostLink connect(Wire wire, RandomGenerator random) {
    return connect(wire, random, LinkTimes.REQUEST_TRIES);
  }

  /**
   * Says HELLO every 100 ms until it was said {@code tries} times; for boards that take a while to
   * start after their port was opened.
   */
  public static HostLink connect(Wire wire, RandomGenerator random, int tries) {
    FrameLine line = new FrameLine(wire);
    HelloReply hello = Greeting.exchange(line, random, tries);
    LOG.debug("{}: {}", wire.name(), hello);
    return new HostLink(line, new Lease(wire), random, hello);
  }

  /** What the fixture last said of itself. */
  public HelloReply hello() {
    return hello;
  }

  /** What it said of itself since, if it was reset or taken by another host. */
  public Optional<HelloReply> restarted() {
    return talk.session().flatMap(Session::newBoot);
  }

  /**
   * Sends STOP for the session that was opened last, from any thread, and ends the beats; waits for
   * no answer. Only over a wire that may be written to by any thread.
   */
  public void dropNow() {
    byte[] frame = stopFrame;
    if (frame.length > 0) {
      line.abandon(frame);
    }
  }

  /**
   * Starts a session, which drops every drive and ends the one before.
   *
   * @throws LinkException refused, or no answer
   */
  public Status open(OpenRequest request) {
    lease.end(line.encode(placeSession, new Beat(0)));
    talk.session().flatMap(Session::newBoot).ifPresent(this::adopt);
    talk.forget();
    for (int attempt = 1; ; attempt++) {
      Session opened = new Session(line, lease, hello, newNumber(), 0, request.silenceMs(), random);
      boolean accepted = talk.open(opened, request.following(hello.boot(), placeSession));
      if (accepted) {
        placeSession = opened.number();
        stopFrame = line.encode(placeSession, new Stop());
      }
      if (accepted && opened.isLive()) {
        return lastStatus(opened);
      }
      if (attempt == OPEN_TRIES) {
        throw accepted
            ? LinkProblems.wrongState(line.name(), "state OPENED", lastStatus(opened))
            : LinkProblems.refused(line.name(), "OPEN", talk.refusal().orElseThrow());
      }
      adopt(Greeting.exchange(line, random, LinkTimes.REQUEST_TRIES));
    }
  }

  /** Number of the session that was opened or rejoined last; 0 before the first. */
  public int session() {
    return talk.session().map(Session::number).orElse(0);
  }

  /**
   * Takes up a session that an earlier link to the same boot lost, to end it and to fetch what it
   * left: STOP, then each result from {@code from} on that the fixture still has comes as an event,
   * then {@link LinkEvent.Dropped}. Nothing more is run.
   *
   * @param lost number of that session
   * @param from number of the first step whose result is not safe yet
   * @return false when the fixture no longer has that session in place: nothing can be fetched
   */
  public boolean rejoin(int lost, int from) {
    if (lost == 0 || hello.session() != lost) {
      return false;
    }
    Session old = new Session(line, lease, hello, lost, from, 0, random);
    old.end();
    talk.with(old);
    return true;
  }

  /**
   * Makes the drives live: queued steps run.
   *
   * @throws LinkException the session is over, or no answer
   */
  public void arm() {
    Session current = drained();
    long before = current.statuses();
    ask(current, "ARM", new Arm(), () -> current.statuses() > before && current.isInLiveState());
    if (!current.isLive()) {
      throw LinkProblems.wrongState(line.name(), "state READY after ARM", lastStatus(current));
    }
    current.armed();
  }

  /**
   * Whether the session was ended by the fixture's silence timer before any step was handed over,
   * so that another one may take its place as if it had not been.
   */
  public boolean fellSilentUnused() {
    return talk.session().filter(Session::fellSilentUnused).isPresent();
  }

  /**
   * Whether {@link #submit} may be called: a slot is free, and the fixture neither held nor down.
   */
  public boolean hasRoom() {
    return talk.session().map(Session::hasRoom).orElse(false);
  }

  /**
   * Whether {@link #submit} may be called with this step. A sequence, and a step with capture, are
   * alone in the fixture: every step before has a result, and edges are acknowledged.
   */
  public boolean hasRoomFor(StepRequest step) {
    return talk.session().map(session -> session.hasRoomFor(step)).orElse(false);
  }

  /**
   * Queues a step, and sends it as soon as the line can take it.
   *
   * @return its number
   * @throws IllegalStateException when there is no room
   * @throws LinkException when the fixture has nothing that this step needs
   */
  public int submit(StepRequest step) {
    if (!hasRoomFor(step)) {
      throw new IllegalStateException("no room for a step");
    }
    if (step.later().size() > hello.mostEntriesOfSequence()) {
      throw LinkProblems.tooManyEntries(line.name(), hello, step.later().size());
    }
    if (step.capture() && !hello.captures()) {
      throw LinkProblems.noCapture(line.name(), hello);
    }
    return current().submit(step);
  }

  /**
   * Waits as {@link #await} does, and answers for the run meanwhile: the lease is renewed again and
   * again, so that the drives stay live.
   *
   * @throws LinkException lost, hung (after STOP), or a step refused
   */
  public LinkEvent attend(long deadlineNs) {
    while (true) {
      renewLease();
      LinkEvent event = await(Math.min(deadlineNs, line.nowNs() + LinkTimes.RENEW_NS));
      if (!(event instanceof LinkEvent.Idle) || line.nowNs() >= deadlineNs) {
        return event;
      }
    }
  }

  /**
   * Waits for the next event, or until the deadline.
   *
   * @param deadlineNs on the wire's clock; in the past: what is there already
   * @throws LinkException lost, hung (after STOP), or a step refused
   */
  public LinkEvent await(long deadlineNs) {
    Session current = current();
    talk.enter();
    for (; ; ) {
      talk.drain();
      Optional<LinkEvent> event = current.nextEvent();
      if (event.isPresent()) {
        talk.leave();
        return event.get();
      }
      long nowNs = line.nowNs();
      long dueNs = Math.min(talk.checkHeard(nowNs), current.tend(nowNs));
      current.hung().ifPresent(this::stopHung);
      if (nowNs >= deadlineNs) {
        talk.leave();
        return new LinkEvent.Idle();
      }
      line.receive(Math.min(deadlineNs, dueNs));
      talk.dispatch();
    }
  }

  /** Whether {@link #await} would return an event without waiting. */
  public boolean eventReady() {
    talk.drain();
    return talk.session().map(Session::hasEvent).orElse(false);
  }

  /**
   * Tells the fixture, in one BEAT, that every step below this number is safe; its slots are free.
   *
   * @throws IllegalArgumentException when a result below it was not handed out yet
   */
  public void acknowledge(int below) {
    Session current = current();
    current.window().acknowledge(below);
    if (current.isLive()) {
      current.beat();
      lease.change(current.beatFrame());
    }
  }

  /** Somebody answers for the run: beats go on for 3 s from now. */
  public void renewLease() {
    Session current = current();
    if (current.isLive()) {
      lease.renew(current.beatFrame());
    }
  }

  /**
   * Goes on after a gated step missed.
   *
   * @return the status that shows it; it may show that the session is over
   * @throws LinkException no answer
   */
  public Status resume(int step) {
    Session current = drained();
    long before = current.statuses();
    ask(
        current,
        "RESUME",
        new Resume(step),
        () -> current.statuses() > before && current.hasLeftHold(step));
    current.resumed(step);
    return lastStatus(current);
  }

  /**
   * Drops the drives and ends the session's steps. Results of steps that ended can still be
   * awaited; then comes {@link LinkEvent.Dropped}.
   *
   * @throws LinkException no answer: the drives drop by themselves after the silence time
   */
  public Status stop() {
    Session current = current();
    lease.end(current.beatFrame());
    ask(current, "STOP", new Stop(), () -> false);
    return lastStatus(current);
  }

  /**
   * Asks how the fixture is.
   *
   * @throws LinkException no answer
   */
  public Status status() {
    Session current = drained();
    long before = current.statuses();
    Asking asking = line.asking("BEAT", line.nowNs(), current::beat);
    talk.exchange(asking, () -> current.statuses() > before || current.newBoot().isPresent());
    return lastStatus(current);
  }

  /**
   * Switches the card's supply; the drives are released first, and stay so until a step starts.
   * Every step must have ended.
   *
   * @throws IllegalStateException when a step is on its way
   * @throws LinkException the fixture has no such switch, refused, tripped, or no answer
   */
  public void supply(boolean on) {
    if (!hello.canSwitchSupply()) {
      throw LinkProblems.noSupplySwitch(line.name(), hello);
    }
    Session current = drained();
    if (current.window().finished() != current.window().next()) {
      throw new IllegalStateException("the supply is switched between steps");
    }
    long before = current.supplyReplies(on);
    ask(current, "SUPPLY", new Supply(on), () -> current.supplyReplies(on) > before);
    if (!current.isLive()) {
      throw LinkProblems.wrongState(line.name(), "a session to switch in", lastStatus(current));
    }
  }

  /**
   * Rail and current as they are now.
   *
   * @throws LinkException the fixture senses nothing, or no answer
   */
  public Sense sense() {
    if (!hello.senses()) {
      throw LinkProblems.noSense(line.name(), hello);
    }
    Session current = drained();
    long before = current.senses();
    ask(current, "READ_SENSE", new ReadSense(), () -> current.senses() > before);
    return current
        .lastSense()
        .orElseThrow(
            () ->
                LinkProblems.wrongState(line.name(), "a session to sense in", lastStatus(current)));
  }

  public LinkCounters counters() {
    return line.counters();
  }

  /** Ends a live session as well as the line allows; never throws. */
  @Override
  public void close() {
    talk.session().ifPresent(this::close);
    talk.forget();
  }

  private void close(Session current) {
    try {
      lease.end(current.beatFrame());
      if (current.isLive()) {
        stop();
      }
    } catch (LinkException failed) {
      LOG.debug("{}: no STOP at the end", line.name(), failed);
    }
  }

  private Session current() {
    return talk.session().orElseThrow(() -> new IllegalStateException("no session is open"));
  }

  /** The session after everything that is there already was taken, so that news can be told. */
  private Session drained() {
    talk.drain();
    return current();
  }

  private void adopt(HelloReply news) {
    hello = news;
    placeSession = news.session();
    line.use(MessageCodec.of(news));
  }

  private int newNumber() {
    int number = random.nextInt();
    while (number == 0 || number == placeSession) {
      number = random.nextInt();
    }
    return number;
  }

  /**
   * Asks something of a live session until it is answered, or the session is over.
   *
   * @throws LinkException refused, or no answer
   */
  private void ask(Session current, String what, Message message, BooleanSupplier answered) {
    int type = line.codec().typeOf(message);
    talk.exchange(
        line.asking(what, line.nowNs(), () -> current.ask(message)),
        () -> answered.getAsBoolean() || !current.isLive() || talk.isRefused(type));
    if (talk.isRefused(type)) {
      throw LinkProblems.refused(line.name(), what, talk.refusal().orElseThrow());
    }
  }

  private void stopHung(HungWatch.Hung hung) {
    LinkException problem =
        LinkProblems.hung(line.name(), hung.number(), hung.waitedMs(), hung.status());
    try {
      stop();
    } catch (LinkException failed) {
      problem.addSuppressed(failed);
    }
    throw problem;
  }

  private static Status lastStatus(Session session) {
    return session.lastStatus().orElseThrow();
  }
}
