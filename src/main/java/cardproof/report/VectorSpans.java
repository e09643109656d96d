package cardproof.report;

import cardproof.log.Verdict;
import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;

/**
 * Keeps what changed during each vector until its verdict is final, so that the verdict can be
 * written at the vector's start.
 */
final class VectorSpans {
  private static final long BEFORE_THE_FIRST = -1;

  private record Change(long timeNs, VcdVariable variable, VcdValue value) {}

  private static final class Span {
    private final long number;
    private final long startNs;
    private final List<Change> changes = new ArrayList<>();
    private Verdict verdict;
    private boolean headWritten;

    private Span(long number, long startNs) {
      this.number = number;
      this.startNs = startNs;
    }
  }

  private final VcdWriter writer;
  private final VcdVariable number;
  private final VcdVariable verdict;
  private final VcdVariable failed;
  private final Deque<Span> spans = new ArrayDeque<>();
  private int kept;

  VectorSpans(VcdWriter writer, VcdVariable number, VcdVariable verdict, VcdVariable failed) {
    this.writer = writer;
    this.number = number;
    this.verdict = verdict;
    this.failed = failed;
    spans.add(new Span(BEFORE_THE_FIRST, 0));
  }

  void change(long nowNs, VcdVariable variable, VcdValue value) throws IOException {
    spans.getLast().changes.add(new Change(nowNs, variable, value));
    kept++;
    if (kept > CardWave.MOST_KEPT) {
      writeAll();
    }
  }

  void start(long nowNs, long vector) throws IOException {
    spans.add(new Span(vector, nowNs));
    if (spans.getFirst().number == BEFORE_THE_FIRST) {
      letFirstGo();
    }
  }

  /** All vectors before this one have their last verdict. Unknown where the vector never ran. */
  void judged(long vector, Verdict found) throws IOException {
    while (spans.size() > 1 && spans.getFirst().number < vector) {
      letFirstGo();
    }
    for (Span span : spans) {
      if (span.number == vector) {
        span.verdict = found;
      }
    }
  }

  void end(long nowNs) throws IOException {
    writeAll();
    writer.end(nowNs);
  }

  private void letFirstGo() throws IOException {
    writeFirst();
    spans.removeFirst();
    writer.flush(spans.getFirst().startNs);
  }

  private void writeAll() throws IOException {
    writeFirst();
    while (spans.size() > 1) {
      spans.removeFirst();
      writeFirst();
    }
  }

  private void writeFirst() throws IOException {
    Span span = spans.getFirst();
    if (!span.headWritten && span.number != BEFORE_THE_FIRST) {
      head(span);
    }
    for (Change change : span.changes) {
      writer.change(change.timeNs(), change.variable(), change.value());
    }
    kept -= span.changes.size();
    span.changes.clear();
  }

  private void head(Span span) throws IOException {
    span.headWritten = true;
    boolean known = span.verdict != null;
    writer.change(span.startNs, number, VcdValue.number(span.number + 1));
    writer.change(
        span.startNs, verdict, known ? VcdValue.text(span.verdict.word()) : VcdValue.unknown());
    writer.change(
        span.startNs, failed, known ? VcdValue.bit(span.verdict.isFailure()) : VcdValue.unknown());
  }
}
