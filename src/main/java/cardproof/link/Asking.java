package cardproof.link;

import java.util.function.Supplier;

/** One question, repeated until it is answered or has been sent often enough. */
final class Asking {
  private final Runnable send;
  private final Runnable repeated;
  private final Supplier<LinkException> givenUp;
  private final int tries;
  private int sent;
  private long dueNs;

  /**
   * @param firstNs when to ask for the first time
   * @param repeated told of each further time
   * @param givenUp what to throw when the last try stayed without an answer
   */
  Asking(
      long firstNs, int tries, Runnable send, Runnable repeated, Supplier<LinkException> givenUp) {
    this.dueNs = firstNs;
    this.tries = tries;
    this.send = send;
    this.repeated = repeated;
    this.givenUp = givenUp;
  }

  /** Sends when it is time to. */
  void tend(long nowNs) {
    if (nowNs < dueNs) {
      return;
    }
    if (sent == tries) {
      throw givenUp.get();
    }
    if (sent > 0) {
      repeated.run();
    }
    send.run();
    sent++;
    dueNs = nowNs + LinkTimes.REQUEST_NS;
  }

  /** Puts the next try off: something has come, if not all. */
  void postpone(long toNs) {
    dueNs = Math.max(dueNs, toNs);
  }

  int sent() {
    return sent;
  }

  long dueNs() {
    return dueNs;
  }
}
