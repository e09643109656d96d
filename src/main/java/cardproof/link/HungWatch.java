package cardproof.link;

import java.util.Optional;

/**
 * Finds a step that should long have ended. What looks like that may be lost frames, so the fixture
 * is asked first: only its own word that the step is taken and not finished counts.
 */
final class HungWatch {
  private static final int NONE = -1;

  private final FrameLine line;
  private final StepWindow window;
  private final StepSender sender;
  private int suspect = NONE;
  private long statusesThen;
  private Optional<Asking> asking = Optional.empty();
  private Optional<Hung> found = Optional.empty();

  /** A step that the fixture took and does not end. */
  record Hung(int number, long waitedMs, Status status) {}

  HungWatch(FrameLine line, StepWindow window, StepSender sender) {
    this.line = line;
    this.window = window;
    this.sender = sender;
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
    if (first != suspect) {
      suspect = first;
      statusesThen = statuses;
      asking = Optional.of(line.asking("BEAT", nowNs, LinkTimes.RUNNING_TRIES, beat));
    }
    if (statuses > statusesThen) {
      if (window.taken() > first) {
        found = Optional.of(new Hung(first, LinkTimes.toMs(nowNs - startNs), latest.orElseThrow()));
        return nowNs;
      }
      // never taken: its frame was lost, and so were the answers that would have told
      sender.goBack(nowNs);
      clear();
      return nowNs;
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
