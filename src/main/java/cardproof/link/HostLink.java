package cardproof.link;

import cardproof.link.FrameLine.Received;
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

  /** Reads in a row without looking up, against a fixture that never pauses. */
  private static final int MOST_READS = 64;

  private final FrameLine line;
  private final Lease lease;
  private final RandomGenerator random;
  private HelloReply hello;
  private int placeSession;
  private Optional<Session> session = Optional.empty();
  private Optional<Nack> refusal = Optional.empty();

  private HostLink(FrameLine line, Lease lease, RandomGenerator random, HelloReply hello) {
    this.line = line;
    this.lease = lease;
    this.random = random;
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

  /**
   * Starts a session, which drops every drive and ends the one before.
   *
   * @throws LinkException refused, or no answer
   */
  public Status open(OpenRequest request) {
    lease.end(line.encode(placeSession, new Beat(0)));
    session.flatMap(Session::newBoot).ifPresent(this::adopt);
    session = Optional.empty();
    for (int attempt = 1; ; attempt++) {
      Session opened = startSession(request);
      Optional<Status> status = opened.latest();
      if (status.isPresent() && opened.isLive()) {
        session = Optional.of(opened);
        return status.get();
      }
      if (attempt == OPEN_TRIES) {
        throw status
            .map(last -> LinkProblems.wrongState(line.name(), "state OPENED", last))
            .orElseGet(() -> LinkProblems.refused(line.name(), "OPEN", refusal.orElseThrow()));
      }
      adopt(Greeting.exchange(line, random, LinkTimes.REQUEST_TRIES));
    }
  }

  /**
   * Makes the drives live: queued steps run.
   *
   * @throws LinkException the session is over, or no answer
   */
  public void arm() {
    Session current = current();
    long before = current.statuses();
    ask(current, "ARM", new Arm(), () -> current.statuses() > before && isArmed(current));
    if (!current.isLive()) {
      throw LinkProblems.wrongState(
          line.name(), "state READY after ARM", current.lastStatus().orElseThrow());
    }
    current.armed();
  }

  /**
   * Whether {@link #submit} may be called: a slot is free, and the fixture neither held nor down.
   */
  public boolean hasRoom() {
    return session.map(Session::hasRoom).orElse(false);
  }

  /**
   * Queues a step, and sends it as soon as the line can take it.
   *
   * @return its number
   * @throws IllegalStateException when there is no room
   */
  public int submit(StepRequest step) {
    if (!hasRoom()) {
      throw new IllegalStateException("no room for a step");
    }
    return current().submit(step);
  }

  /**
   * Waits for the next event, or until the deadline.
   *
   * @param deadlineNs on the wire's clock; in the past: what is there already
   * @throws LinkException lost, hung (after STOP), or a step refused
   */
  public LinkEvent await(long deadlineNs) {
    Session current = current();
    for (; ; ) {
      drain();
      Optional<LinkEvent> event = current.nextEvent();
      if (event.isPresent()) {
        return event.get();
      }
      long nowNs = line.nowNs();
      long dueNs = Math.min(checkHeard(nowNs), current.tend(nowNs));
      current.hung().ifPresent(this::stopHung);
      if (nowNs >= deadlineNs) {
        return new LinkEvent.Idle();
      }
      line.receive(Math.min(deadlineNs, dueNs));
      dispatch();
    }
  }

  /** Whether {@link #await} would return an event without waiting. */
  public boolean eventReady() {
    drain();
    return session.map(Session::hasEvent).orElse(false);
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
    Session current = current();
    long before = current.statuses();
    ask(
        current,
        "RESUME",
        new Resume(step),
        () -> current.statuses() > before && isBeyond(current, step));
    current.resumed(step);
    return current.lastStatus().orElseThrow();
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
    return current.lastStatus().orElseThrow();
  }

  /**
   * Asks how the fixture is.
   *
   * @throws LinkException no answer
   */
  public Status status() {
    Session current = current();
    long before = current.statuses();
    Asking asking = line.asking("BEAT", line.nowNs(), current::beat);
    exchange(asking, () -> current.statuses() > before || current.newBoot().isPresent());
    return current.lastStatus().orElseThrow();
  }

  public LinkCounters counters() {
    return line.counters();
  }

  /** Ends a live session as well as the line allows; never throws. */
  @Override
  public void close() {
    session.ifPresent(this::close);
    session = Optional.empty();
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
    return session.orElseThrow(() -> new IllegalStateException("no session is open"));
  }

  private void adopt(HelloReply news) {
    hello = news;
    placeSession = news.session();
    line.use(new MessageCodec(news.drives(), news.watches()));
  }

  /** A session for which OPEN was answered with STATUS, or, without one, with a refusal. */
  private Session startSession(OpenRequest request) {
    int number = newSession();
    Open open = request.following(hello.boot(), placeSession);
    long silenceNs = LinkTimes.ofMs(request.silenceMs());
    Session opened = new Session(line, lease, hello, number, silenceNs, random);
    session = Optional.of(opened);
    refusal = Optional.empty();
    Asking asking = line.asking("OPEN", line.nowNs(), () -> line.ask(number, open));
    exchange(asking, () -> opened.latest().isPresent() || isRefused(Types.OPEN));
    if (opened.latest().isPresent()) {
      placeSession = number;
    } else if (refusal.orElseThrow().reason() != NackReason.WRONG_SESSION) {
      throw LinkProblems.refused(line.name(), "OPEN", refusal.orElseThrow());
    }
    return opened;
  }

  private int newSession() {
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
    refusal = Optional.empty();
    int type = line.codec().typeOf(message);
    exchange(
        line.asking(what, line.nowNs(), () -> current.ask(message)),
        () -> answered.getAsBoolean() || !current.isLive() || isRefused(type));
    if (isRefused(type)) {
      throw LinkProblems.refused(line.name(), what, refusal.orElseThrow());
    }
  }

  private void exchange(Asking asking, BooleanSupplier answered) {
    for (; ; ) {
      drain();
      if (answered.getAsBoolean()) {
        return;
      }
      long nowNs = line.nowNs();
      asking.tend(nowNs);
      long dueNs = session.map(current -> current.tendDrop(nowNs)).orElse(Long.MAX_VALUE);
      line.receive(Math.min(asking.dueNs(), dueNs));
      dispatch();
    }
  }

  /** A wrong session is no refusal of what was asked: whoever sees it asks who is there. */
  private boolean isRefused(int type) {
    return refusal
        .filter(nack -> nack.refusedType() == type)
        .filter(nack -> type == Types.OPEN || nack.reason() != NackReason.WRONG_SESSION)
        .isPresent();
  }

  /** Takes what is there already. */
  private void drain() {
    for (int i = 0; i < MOST_READS && line.receive(line.nowNs()); i++) {
      dispatch();
    }
    dispatch();
  }

  private void dispatch() {
    for (var next = line.poll(); next.isPresent(); next = line.poll()) {
      Received received = next.get();
      if (received.frame().message() instanceof Nack nack) {
        refusal = Optional.of(nack);
      }
      session.ifPresent(current -> current.take(received));
    }
  }

  /** When the link counts as lost unless something valid comes before. */
  private long checkHeard(long nowNs) {
    long dueSinceNs = line.isAsking() ? line.askedNs() : Long.MAX_VALUE;
    if (lease.runs(nowNs)) {
      dueSinceNs = Math.min(dueSinceNs, Math.max(line.heardNs(), lease.startNs()));
    }
    if (dueSinceNs == Long.MAX_VALUE) {
      return Long.MAX_VALUE;
    }
    long lostNs = dueSinceNs + LinkTimes.LOST_NS;
    if (nowNs >= lostNs) {
      throw LinkProblems.lost(line.name(), LinkTimes.toMs(nowNs - dueSinceNs), counters());
    }
    return lostNs;
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

  private static boolean isArmed(Session current) {
    FixtureState state = current.latest().orElseThrow().state();
    return state == FixtureState.READY || state == FixtureState.RUN || state == FixtureState.HELD;
  }

  /** Whether the fixture has left the hold at this step. */
  private static boolean isBeyond(Session current, int step) {
    FixtureState state = current.latest().orElseThrow().state();
    return state == FixtureState.READY
        || state == FixtureState.RUN
        || current.window().finished() > step + 1;
  }
}
