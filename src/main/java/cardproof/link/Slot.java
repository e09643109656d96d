package cardproof.link;

import java.util.Optional;

/** The host's half of one slot: a step on its way, and what came back. */
final class Slot {
  final int number;
  final byte[] frame;
  final long watchNs;
  private final ResultAssembler assembler;
  private long sentNs;
  private Optional<Result> result = Optional.empty();
  private Optional<Asking> reading = Optional.empty();

  Slot(int number, byte[] frame, long watchNs) {
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

  Optional<Result> result() {
    return result;
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
