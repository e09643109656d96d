package cardproof.link;

/**
 * Sends steps in order, few enough at a time for a line of 250,000 baud and a small receive buffer,
 * and goes back to the first one that the fixture did not take. A step that only seems to be lost
 * may still be on a line that is slow or full: each time, half as many bytes go out at once, and
 * more again with every step that is taken (the additive increase and multiplicative decrease of
 * RFC 5681).
 */
final class StepSender {
  /** Bytes of steps that were sent and are not known to be taken. */
  private static final int MOST_IN_FLIGHT = 512;

  private static final int MORE_WITH_EACH_STEP = 32;

  private static final int MOST_BACKS = 20;
  private static final int PATIENT_BACKS = 3;
  private static final int MOST_TIMES_LONGER = 9;

  private final FrameLine line;
  private final StepWindow window;
  private int sent;
  private int mostInFlight = MOST_IN_FLIGHT;
  private int takenThen;
  private int resentBelow;
  private int backs;
  private int backsAt = -1;
  private long backNs;

  StepSender(FrameLine line, StepWindow window) {
    this.line = line;
    this.window = window;
    this.sent = window.next();
    this.takenThen = window.taken();
  }

  /** Sends what may go out now. */
  void pump(long nowNs) {
    sent = Math.max(sent, window.taken());
    int more = MORE_WITH_EACH_STEP * (window.taken() - takenThen);
    mostInFlight = Math.min(MOST_IN_FLIGHT, mostInFlight + more);
    takenThen = window.taken();
    int flying = 0;
    for (int number = window.taken(); number < sent; number++) {
      flying += window.slot(number).frame.length;
    }
    while (sent < window.next()) {
      Slot slot = window.slot(sent);
      flying += slot.frame.length;
      if (flying > mostInFlight && sent > window.taken()) {
        return;
      }
      send(slot, nowNs);
      if (sent < resentBelow) {
        line.tally().stepsResent++;
      }
      sent++;
    }
  }

  /**
   * Looks at a counter {@code next} that came in a frame.
   *
   * @param sinceNs the frame reached this end no earlier
   */
  void observe(int next, long sinceNs, long nowNs) {
    if (next == window.taken()
        && next < sent
        && sinceNs - window.slot(next).sentNs() >= behindNs()) {
      mostInFlight /= 2;
      goBack(nowNs);
    }
  }

  /** The fixture says that a step is missing; several such answers come for one gap. */
  boolean isGapNews(long nowNs) {
    return window.taken() < sent && (window.taken() != backsAt || nowNs - backNs >= behindNs());
  }

  /**
   * Sends again, from the first step that was not taken on, as few at a time as at first: a slow
   * line that was given them all again would fall further behind each time.
   */
  void goBack(long nowNs) {
    int first = window.taken();
    backs = first == backsAt ? backs + 1 : 1;
    backsAt = first;
    backNs = nowNs;
    if (backs > MOST_BACKS) {
      throw LinkProblems.notTaken(line.name(), first, backs);
    }
    resentBelow = Math.max(resentBelow, sent);
    sent = first;
    pump(nowNs);
  }

  /** Longer and longer where one step is not taken: a line so slow needs time to come empty. */
  private long behindNs() {
    int more = window.taken() == backsAt ? Math.max(0, backs - PATIENT_BACKS) : 0;
    return LinkTimes.BEHIND_NS * (1 + Math.min(more, MOST_TIMES_LONGER));
  }

  /** The step that goes out next. */
  int sent() {
    return sent;
  }

  private void send(Slot slot, long nowNs) {
    line.put(slot.frame);
    slot.sent(nowNs);
  }
}
