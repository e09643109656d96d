package cardproof.link;

import java.util.Optional;
import java.util.function.Supplier;

/** The host's half of one slot: a step on its way, and what came back. */
final class Slot {
  final int number;
  final byte[] frame;
  final long watchNs;
  private final ResultAssembler assembler;
  private final Optional<EdgesAssembler> edges;
  private Optional<Asking> readingEdges = Optional.empty();
  private long sentNs;
  private Optional<Result> result = Optional.empty();
  private Optional<Asking> reading = Optional.empty();

  /** A step without capture. */
  Slot(int number, byte[] frame, long watchNs) {
    this(number, frame, watchNs, false);
  }

  /**
   * @param captures whether its edges belong to its result
   */
  Slot(int number, byte[] frame, long watchNs, boolean captures) {
    this.edges = captures ? Optional.of(new EdgesAssembler(number)) : Optional.empty();
    this.number = number;
    this.frame = frame;
    this.watchNs = watchNs;
    this.assembler = new ResultAssembler(number);
  }

  void sent(long nowNs) {
    sentNs = nowNs;
  }

  /** When it was last sent. */
  long sentNs() {
    return sentNs;
  }

  /** Takes a part of the result; later ones and repeats of a whole result change nothing. */
  void take(Result part, long nowNs) {
    if (result.isEmpty()) {
      result = assembler.add(part);
      reading.ifPresent(asking -> asking.postpone(nowNs + LinkTimes.BEHIND_NS));
    }
    if (result.isPresent()) {
      reading = Optional.empty();
    }
  }

  /** Result and edges, once all is there. */
  Optional<LinkEvent.ResultArrived> arrived() {
    return lacksEdges()
        ? Optional.empty()
        : result.map(
            whole ->
                new LinkEvent.ResultArrived(
                    whole, edges.flatMap(EdgesAssembler::whole).orElse(KeptEdges.NONE)));
  }

  /** Takes edges of this step; the next ones are asked for at once. */
  void take(Edges part) {
    if (lacksEdges()) {
      edges.get().add(part);
      readingEdges = Optional.empty();
    }
  }

  /** Its result is there, but not every edge of it. */
  boolean lacksEdges() {
    return result.isPresent() && edges.isPresent() && edges.get().whole().isEmpty();
  }

  int firstEdgeMissing() {
    return edges.map(EdgesAssembler::missing).orElse(0);
  }

  void readEdgesWith(Supplier<Asking> asking) {
    if (readingEdges.isEmpty()) {
      readingEdges = Optional.of(asking.get());
    }
  }

  long tendEdges(long nowNs) {
    readingEdges.ifPresent(asking -> asking.tend(nowNs));
    return readingEdges.map(Asking::dueNs).orElse(Long.MAX_VALUE);
  }

  /** It is known to have ended; asks for its result unless that comes by itself. */
  void readWith(Asking asking) {
    if (result.isEmpty() && reading.isEmpty()) {
      reading = Optional.of(asking);
    }
  }

  boolean isRead() {
    return reading.isPresent();
  }

  /** Asks when it is time to; returns when to look again. */
  long tend(long nowNs) {
    reading.ifPresent(asking -> asking.tend(nowNs));
    return reading.map(Asking::dueNs).orElse(Long.MAX_VALUE);
  }
}
