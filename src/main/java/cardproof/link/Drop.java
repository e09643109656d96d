package cardproof.link;

import java.util.BitSet;
import java.util.Optional;
import java.util.random.RandomGenerator;

/**
 * Whether the session is over. A first sign is followed by a question, since the answer to that was
 * surely made after the drop and counts every step that ended in it.
 */
final class Drop {
  private final FrameLine line;
  private final int boot;
  private final int session;
  private final RandomGenerator random;
  private final Runnable beat;
  private Optional<Asking> confirming = Optional.empty();
  private Optional<Asking> greeting = Optional.empty();
  private Optional<Status> confirmed = Optional.empty();
  private Optional<HelloReply> reply = Optional.empty();
  private boolean noticed;
  private int nonce;

  Drop(FrameLine line, int boot, int session, RandomGenerator random, Runnable beat) {
    this.line = line;
    this.boot = boot;
    this.session = session;
    this.random = random;
    this.beat = beat;
  }

  /** Whether the drives are known to be down. */
  boolean isNoticed() {
    return noticed;
  }

  boolean isNewBoot() {
    return reply.isPresent();
  }

  /** What the fixture said of itself after a reset, or after another host took it. */
  Optional<HelloReply> reply() {
    return reply;
  }

  /**
   * After a reset nothing more can be had; else the results of what ended are still to be given.
   */
  boolean isOver(boolean allGiven) {
    return confirmed.isPresent() && (allGiven || isNewBoot());
  }

  Status status() {
    return confirmed.orElseThrow();
  }

  /** Ends the session from this side; what this sends is repeated until a status shows it. */
  void endWith(Runnable stop) {
    noticed = true;
    confirming = Optional.of(line.asking("STOP", line.nowNs(), stop));
  }

  /** A status of this session. */
  void take(Status status) {
    boolean down = status.state() == FixtureState.SAFE || status.state() == FixtureState.TRIPPED;
    if (!down) {
      if (!noticed) {
        confirming = Optional.empty();
      }
      return;
    }
    noticed = true;
    if (confirming.isPresent() && confirming.get().sent() > 0) {
      confirmed = confirmed.or(() -> Optional.of(status));
      confirming = Optional.empty();
    } else if (confirmed.isEmpty()) {
      confirming = Optional.of(line.asking("BEAT", line.nowNs(), LinkTimes.RUNNING_TRIES, beat));
    }
  }

  /** Whether a status, of whatever session, comes from the boot of this one. */
  boolean isSameBoot(Status status) {
    return status.boot() == boot;
  }

  /** A refusal that only a drop explains: ask. */
  void suspect(long nowNs) {
    if (confirming.isEmpty() && confirmed.isEmpty()) {
      confirming = Optional.of(line.asking("BEAT", nowNs, LinkTimes.RUNNING_TRIES, beat));
    }
  }

  /** Something that only a reset or another host explains: ask who is there. */
  void suspectBoot(long nowNs) {
    if (greeting.isEmpty() && reply.isEmpty()) {
      nonce = random.nextInt();
      greeting =
          Optional.of(
              line.asking(
                  "HELLO",
                  nowNs,
                  () -> line.ask(nonce, new Hello(Protocol.MAJOR, Protocol.MINOR))));
    }
  }

  /** The answer to that. */
  void take(int answered, HelloReply news) {
    if (greeting.isEmpty() || answered != nonce) {
      return;
    }
    greeting = Optional.empty();
    if (news.boot() != boot || news.session() != session) {
      noticed = true;
      reply = Optional.of(news);
      confirmed = Optional.of(afterReset(news));
      confirming = Optional.empty();
    }
  }

  /** Asks what is due; returns when to look again. */
  long tend(long nowNs) {
    confirming.ifPresent(asking -> asking.tend(nowNs));
    greeting.ifPresent(asking -> asking.tend(nowNs));
    return Math.min(
        confirming.map(Asking::dueNs).orElse(Long.MAX_VALUE),
        greeting.map(Asking::dueNs).orElse(Long.MAX_VALUE));
  }

  /** What is known of a fixture in which this session no longer exists. */
  private Status afterReset(HelloReply news) {
    boolean reset = news.boot() != boot;
    BitSet none = new BitSet();
    return new Status(
        reset ? FixtureState.SAFE : FixtureState.UNKNOWN,
        reset ? DropCause.NEVER_LIVE : DropCause.OPEN,
        Protocol.NO_WATCH,
        news.boot(),
        0,
        0,
        0,
        0,
        0,
        0,
        none,
        none,
        none);
  }
}
