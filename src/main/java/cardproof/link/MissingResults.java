package cardproof.link;

import java.util.function.Consumer;

/** Asks for results of steps that have ended but whose RESULT did not come. */
final class MissingResults {
  private final FrameLine line;
  private final StepWindow window;
  private final Consumer<Message> ask;

  MissingResults(FrameLine line, StepWindow window, Consumer<Message> ask) {
    this.line = line;
    this.window = window;
    this.ask = ask;
  }

  /** Asks what is due; returns when to look again. */
  long tend(long nowNs) {
    long due = Long.MAX_VALUE;
    for (int number = window.delivered(); number < window.finished(); number++) {
      Slot slot = window.slot(number);
      if (!slot.isRead()) {
        slot.readWith(asking(slot, nowNs));
      }
      due = Math.min(due, slot.tend(nowNs));
    }
    return due;
  }

  private Asking asking(Slot slot, long nowNs) {
    Read read = new Read(slot.number);
    return line.asking(
        "READ of step " + slot.number,
        nowNs + LinkTimes.BEHIND_NS,
        LinkTimes.RUNNING_TRIES,
        () -> {
          line.tally().resultsRead++;
          ask.accept(read);
        });
  }
}
