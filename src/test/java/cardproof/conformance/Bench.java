package cardproof.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;

/**
 * What a case works with: the peer, and a host that says exactly what the case wants and nothing
 * else. Times in microseconds of the peer's clock.
 */
final class Bench {
  /** How long an answer may take: what the page has the host wait before it asks again. */
  static final long ANSWER_US = 100_000;

  static final int NONCE = 0x11223344;
  private static final long BEAT_US = 50_000;

  private final Peer peer;
  private final Inbox inbox = new Inbox();
  private HelloR shape;
  private int session;

  /** Frames received whole, as last told, and those sent since. */
  private long whole;

  private long sent;
  private int sessions = 0x5A170000;

  Bench(Peer peer) {
    this.peer = peer;
    raw(new byte[] {0});
    this.shape = hello(1);
    this.session = shape.session();
  }

  Peer peer() {
    return peer;
  }

  /** As HELLO_R last had it. */
  HelloR shape() {
    return shape;
  }

  int session() {
    return session;
  }

  void raw(byte[] line) {
    peer.send(line);
  }

  void send(Frame frame) {
    sent++;
    raw(frame.line());
  }

  void send(int type, byte[] body) {
    send(new Frame(type, session, body));
  }

  HelloR hello(int minor) {
    send(new Frame(Type.HELLO, NONCE, new Bytes().u8(1).u8(minor).done()));
    Frame answer = await(Type.HELLO_R);
    assertThat(answer.session()).as("number that HELLO_R returns").isEqualTo(NONCE);
    shape = HelloR.of(answer.body());
    return shape;
  }

  /** A new session, of whatever number; the fixture is as it was asked for by HELLO just now. */
  Status open(Open open) {
    HelloR now = hello(1);
    int fresh = newSession();
    Status status = status(open.frame(fresh, now, now.boot(), now.session()));
    assertThat(status.state()).as("state after OPEN").isEqualTo(Status.OPENED);
    session = fresh;
    return status;
  }

  /** A new session with this version settled before. */
  Status open(Open open, int minor) {
    HelloR now = hello(minor);
    int fresh = newSession();
    send(open.frame(fresh, now, now.boot(), now.session()));
    session = fresh;
    return Status.of(await(Type.STATUS).body(), now);
  }

  int newSession() {
    return ++sessions;
  }

  /** The session that frames carry from now on. */
  void useSession(int other) {
    session = other;
  }

  Status arm() {
    return status(Frame.of(Type.ARM, session));
  }

  void live(Open open) {
    open(open);
    assertThat(arm().state()).as("state after ARM").isEqualTo(Status.READY);
  }

  Status stop() {
    return status(Frame.of(Type.STOP, session));
  }

  Status beat(long ack) {
    return status(new Frame(Type.BEAT, session, new Bytes().u32(ack).done()));
  }

  Status resume(long step) {
    return status(new Frame(Type.RESUME, session, new Bytes().u32(step).done()));
  }

  /** Asks for nothing but a STATUS: an ack of 0 changes nothing. */
  Status now() {
    return beat(0);
  }

  /**
   * Sends it and returns the STATUS that answers. One that was sent unasked before the frame was
   * received is told by its count of frames.
   */
  Status status(Frame frame) {
    forget(Type.STATUS);
    send(frame);
    long least = whole + sent;
    Status status = awaitStatus(ANSWER_US, each -> each.whole() >= least, "STATUS in answer");
    whole = status.whole();
    sent = 0;
    return status;
  }

  Nack nack(Frame frame) {
    forget(Type.NACK);
    send(frame);
    Frame answer = await(Type.NACK);
    assertThat(answer.session()).as("session of the NACK").isEqualTo(frame.session());
    Nack nack = Nack.of(answer.body());
    assertThat(nack.type()).as("type that the NACK refuses").isEqualTo(frame.type());
    return nack;
  }

  void give(Step step) {
    send(step.frame(session, shape));
  }

  Frame frame(Step step) {
    return step.frame(session, shape);
  }

  /** Gives a step and waits for its result. */
  Result run(Step step) {
    give(step);
    return result(step);
  }

  /** Waits for the result of a step that was given, however long it may watch. */
  Result result(Step step) {
    return result(step.number(), step.watch() + ANSWER_US);
  }

  /** All entries of a result, from however many parts. */
  Result result(long step, long withinUs) {
    List<Result> parts = parts(step, withinUs);
    Result first = parts.get(0);
    List<Result.Entry> entries = new ArrayList<>();
    parts.forEach(part -> entries.addAll(part.entries()));
    return new Result(
        first.step(),
        first.next(),
        first.flags(),
        first.startUs(),
        first.durationUs(),
        first.skewUs(),
        first.gapUs(),
        first.blindUs(),
        first.before(),
        first.last(),
        first.dwell(),
        first.unstable(),
        first.glitched(),
        first.stirred(),
        first.moved(),
        0,
        entries,
        first.sense());
  }

  List<Result> parts(long step, long withinUs) {
    List<Result> parts = new ArrayList<>();
    int have = 0;
    do {
      Frame frame = awaitFed(at -> at.type() == Type.RESULT, "RESULT of " + step, withinUs);
      Result part = Result.of(frame.body(), shape);
      assertThat(part.step()).as("step of the result").isEqualTo(step);
      assertThat(part.firstIndex()).as("entries follow one another").isEqualTo(have);
      have += part.entries().size();
      parts.add(part);
    } while (have < parts.get(0).moved());
    return parts;
  }

  Result read(long step) {
    forget(Type.RESULT);
    send(Type.READ, new Bytes().u32(step).done());
    return result(step, ANSWER_US);
  }

  Edges edges(long step, int from) {
    send(readEdges(step, from));
    return Edges.of(await(Type.EDGES).body());
  }

  Frame readEdges(long step, int from) {
    return new Frame(Type.READ_EDGES, session, new Bytes().u32(step).u16(from).done());
  }

  Frame await(int type) {
    return await(frame -> frame.type() == type, "frame of type %02x".formatted(type), ANSWER_US)
        .frame();
  }

  Status awaitStatus(long withinUs, Predicate<Status> which, String what) {
    return Status.of(
        await(
                frame -> frame.type() == Type.STATUS && which.test(Status.of(frame.body(), shape)),
                what,
                withinUs)
            .frame()
            .body(),
        shape);
  }

  private Frame awaitFed(Predicate<Frame> which, String what, long withinUs) {
    long endNs = peer.nowNs() + withinUs * 1000;
    while (peer.nowNs() < endNs) {
      Optional<Arrived> found = awaited(which, Math.min(endNs, peer.nowNs() + BEAT_US * 1000));
      if (found.isPresent()) {
        return found.get().frame();
      }
      send(new Frame(Type.BEAT, session, new Bytes().u32(0).done()));
    }
    throw new AssertionError("no " + what + " within " + withinUs + " us; came: " + tail());
  }

  Arrived await(Predicate<Frame> which, String what, long withinUs) {
    return awaited(which, peer.nowNs() + withinUs * 1000)
        .orElseThrow(
            () ->
                new AssertionError("no " + what + " within " + withinUs + " us; came: " + tail()));
  }

  private Optional<Arrived> awaited(Predicate<Frame> which, long untilNs) {
    while (true) {
      for (Iterator<Arrived> each = inbox.waiting().iterator(); each.hasNext(); ) {
        Arrived next = each.next();
        if (which.test(next.frame())) {
          each.remove();
          return Optional.of(next);
        }
      }
      if (peer.nowNs() >= untilNs) {
        return Optional.empty();
      }
      inbox.take(peer.receive(untilNs), peer.nowNs());
    }
  }

  private String tail() {
    List<Arrived> all = inbox.all();
    return all.subList(Math.max(0, all.size() - 4), all.size()).toString();
  }

  /** Lets time pass without a word. */
  void idle(long us) {
    long endNs = peer.nowNs() + us * 1000;
    while (peer.nowNs() < endNs) {
      inbox.take(peer.pass(endNs), peer.nowNs());
    }
  }

  /** Lets time pass, and keeps the session from falling silent. */
  void pass(long us) {
    long endNs = peer.nowNs() + us * 1000;
    while (peer.nowNs() < endNs) {
      idle(Math.min(BEAT_US, (endNs - peer.nowNs() + 999) / 1000));
      if (peer.nowNs() < endNs) {
        send(Type.BEAT, new Bytes().u32(0).done());
      }
    }
  }

  /** Puts aside what has come of this type. */
  void forget(int type) {
    inbox.take(peer.receive(peer.nowNs()), peer.nowNs());
    inbox.waiting().removeIf(arrived -> arrived.frame().type() == type);
  }

  /** Everything of this type that has come since the start. */
  List<Arrived> came(int type) {
    return inbox.all().stream().filter(arrived -> arrived.frame().type() == type).toList();
  }

  /** What came in the time that an answer takes at most. */
  List<Frame> silence(long us) {
    int before = inbox.all().size();
    idle(us);
    List<Arrived> all = inbox.all();
    return all.subList(before, all.size()).stream().map(Arrived::frame).toList();
  }

  void reset(int cause) {
    peer.reset(cause);
    whole = 0;
    sent = 0;
    idle(1000);
    session = 0;
  }
}
