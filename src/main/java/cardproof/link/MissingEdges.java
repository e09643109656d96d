package cardproof.link;

import java.util.function.Consumer;

/** Asks for the edges of steps with capture whose result is there. */
final class MissingEdges {
  private final FrameLine line;
  private final StepWindow window;
  private final Consumer<Message> ask;

  MissingEdges(FrameLine line, StepWindow window, Consumer<Message> ask) {
    this.line = line;
    this.window = window;
    this.ask = ask;
  }

  /** Asks what is due; returns when to look again. */
  long tend(long nowNs) {
    long due = Long.MAX_VALUE;
    for (int number = window.delivered(); number < window.finished(); number++) {
      Slot slot = window.slot(number);
      if (slot.lacksEdges()) {
        slot.readEdgesWith(() -> asking(slot, nowNs));
        due = Math.min(due, slot.tendEdges(nowNs));
      }
    }
    return due;
  }

  private Asking asking(Slot slot, long nowNs) {
    return line.asking(
        "READ_EDGES of step " + slot.number,
        nowNs,
        LinkTimes.RUNNING_TRIES,
        () -> ask.accept(new ReadEdges(slot.number, slot.firstEdgeMissing())));
  }
}
