package cardproof.link;

import java.util.Optional;

/**
 * Finds a step that should long have ended. What looks like that from here may be frames that were
 * lost or held up, so the fixture is asked, and its own clock counts: it has to say twice that this
 * step is the next to finish, further apart than any step may last. Only where that clock stands
 * still does the host's own decide, after a wait that no line makes necessary.
 */
final class HungWatch {
  private static final int NONE = -1;

  private final FrameLine line;
  private final StepWindow window;
  private final StepSender sender;
  private int suspect = NONE;
  private long statusesThen;
  private Optional<Asking> asking = Optional.empty();
  private Optional<Running> running = Optional.empty();
  private Optional<Hung> found = Optional.empty();

  /** A step that the fixture took and does not end. */
  record Hung(int number, long waitedMs, Status status) {}

  /** When the fixture, on its own clock, first spoke of a step as taken and not ended. */
  private record Running(int number, long sinceUs) {}

  HungWatch(FrameLine line, StepWindow window, StepSender sender) {
    this.line = line;
    this.window = window;
    this.sender = sender;
  }

  /** Looks at a status of this session that is not older than the one before. */
  void take(Status status) {
    int first = status.finished();
    if (status.next() == first || !status.state().runsSteps()) {
      running = Optional.empty();
    } else if (running.isEmpty() || running.get().number != first) {
      running = Optional.of(new Running(first, status.nowUs()));
    } else if (first >= window.finished()) {
      long ranNs = LinkTimes.ofUs(status.nowUs() - running.get().sinceUs);
      if (ranNs >= window.slot(first).watchNs + LinkTimes.HUNG_NS) {
        found = Optional.of(new Hung(first, LinkTimes.toMs(ranNs), status));
      }
    }
  }

  /** Asks when a step is overdue; returns when to look again. */
  long tend(long nowNs, Runnable beat, Optional<Status> latest, long statuses) {
    int first = window.finished();
    if (first >= sender.sent()) {
      clear();
      return Long.MAX_VALUE;
    }
    Slot slot = window.slot(first);
    long startNs = Math.max(slot.sentNs(), window.progressNs());
    long overdueNs = startNs + slot.watchNs + LinkTimes.HUNG_NS;
    if (nowNs < overdueNs) {
      clear();
      return overdueNs;
    }
    if (first != suspect || statuses > statusesThen) {
      if (first == suspect && window.taken() <= first) {
        // never taken: its frame was lost, and so were the answers that would have told
        sender.goBack(nowNs);
        clear();
        return nowNs;
      }
      if (first == suspect && nowNs >= overdueNs + LinkTimes.STILL_NS) {
        found = Optional.of(new Hung(first, LinkTimes.toMs(nowNs - startNs), latest.orElseThrow()));
        return nowNs;
      }
      long askNs = first == suspect ? nowNs + LinkTimes.REQUEST_NS : nowNs;
      suspect = first;
      statusesThen = statuses;
      asking = Optional.of(line.asking("BEAT", askNs, LinkTimes.RUNNING_TRIES, beat));
    }
    asking.ifPresent(question -> question.tend(nowNs));
    return asking.map(Asking::dueNs).orElse(Long.MAX_VALUE);
  }

  /** The step that the fixture has confirmed to be hung. */
  Optional<Hung> found() {
    return found;
  }

  private void clear() {
    suspect = NONE;
    asking = Optional.empty();
  }
}
