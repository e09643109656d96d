package cardproof.link;

import cardproof.link.FrameLine.Received;
import java.util.Optional;
import java.util.function.BooleanSupplier;

/** Question and answer on a line: hands what comes to the session, and knows when all is lost. */
final class Conversation {
  /** Reads in a row without looking up, against a fixture that never pauses. */
  private static final int MOST_READS = 64;

  private final FrameLine line;
  private final Lease lease;
  private Optional<Session> session = Optional.empty();
  private Optional<Nack> refusal = Optional.empty();
  private long leftNs;

  Conversation(FrameLine line, Lease lease) {
    this.line = line;
    this.lease = lease;
    this.leftNs = line.nowNs();
  }

  /** The session that frames are for. */
  Optional<Session> session() {
    return session;
  }

  void with(Session next) {
    session = Optional.of(next);
  }

  void forget() {
    session = Optional.empty();
  }

  /** Asks until it is answered; throws what the question says when it never is. */
  void exchange(Asking asking, BooleanSupplier answered) {
    refusal = Optional.empty();
    for (; ; ) {
      drain();
      if (answered.getAsBoolean()) {
        leave();
        return;
      }
      long nowNs = line.nowNs();
      asking.tend(nowNs);
      long dueNs = session.map(current -> current.tendDrop(nowNs)).orElse(Long.MAX_VALUE);
      line.receive(Math.min(asking.dueNs(), dueNs));
      dispatch();
    }
  }

  /**
   * Sends OPEN until it is answered; frames are for that session from then on.
   *
   * @return false when it is meant for another boot, or follows another session than the one in
   *     place
   * @throws LinkException refused for another reason, or no answer
   */
  boolean open(Session opened, Open open) {
    session = Optional.of(opened);
    Asking asking = line.asking("OPEN", line.nowNs(), () -> line.ask(opened.number(), open));
    exchange(asking, () -> opened.lastStatus().isPresent() || isRefused(Types.OPEN));
    if (opened.lastStatus().isPresent()) {
      return true;
    } else if (refusal.orElseThrow().reason() == NackReason.WRONG_SESSION) {
      return false;
    }
    throw LinkProblems.refused(line.name(), "OPEN", refusal.orElseThrow());
  }

  /** The refusal that came last in the last exchange. */
  Optional<Nack> refusal() {
    return refusal;
  }

  /**
   * Whether this was refused for good. A wrong session or state is none (but for OPEN): the session
   * finds out what is behind it.
   */
  boolean isRefused(int type) {
    return refusal
        .filter(nack -> nack.refusedType() == type)
        .filter(
            nack ->
                type == Types.OPEN
                    || nack.reason() != NackReason.WRONG_SESSION
                        && nack.reason() != NackReason.WRONG_STATE)
        .isPresent();
  }

  /** Somebody waits: from here on silence is the line's, not that of a host that was busy. */
  void enter() {
    line.forgive(line.nowNs() - leftNs);
  }

  void leave() {
    leftNs = line.nowNs();
  }

  /** Takes what is there already, without waiting. */
  void drain() {
    for (int i = 0; i < MOST_READS && line.receive(line.nowNs()); i++) {
      dispatch();
    }
    dispatch();
  }

  /** Hands on the frames that were received. */
  void dispatch() {
    for (var next = line.poll(); next.isPresent(); next = line.poll()) {
      Received received = next.get();
      if (received.frame().message() instanceof Nack nack
          && isForSession(received.frame().session(), nack)) {
        refusal = Optional.of(nack);
      }
      session.ifPresent(current -> current.take(received));
    }
  }

  /** A refusal that comes late may be about a session before. */
  private boolean isForSession(int named, Nack nack) {
    return nack.reason() == NackReason.WRONG_SESSION
        || session.filter(current -> current.number() == named).isPresent();
  }

  /**
   * When the link counts as lost unless something valid comes before.
   *
   * @throws LinkException it is lost
   */
  long checkHeard(long nowNs) {
    long dueSinceNs = line.isAsking() ? line.askedNs() : Long.MAX_VALUE;
    if (lease.runs(nowNs)) {
      dueSinceNs = Math.min(dueSinceNs, Math.max(line.heardNs(), lease.startNs()));
    }
    if (dueSinceNs == Long.MAX_VALUE) {
      return Long.MAX_VALUE;
    }
    long lostNs = dueSinceNs + LinkTimes.LOST_NS;
    if (nowNs >= lostNs) {
      long quietMs = LinkTimes.toMs(nowNs - dueSinceNs);
      throw LinkProblems.lost(line.name(), quietMs, line.counters());
    }
    return lostNs;
  }
}
