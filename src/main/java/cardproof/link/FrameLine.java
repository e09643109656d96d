package cardproof.link;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** A wire with frames on it: sends, receives, counts, and knows when it last heard or asked. */
final class FrameLine {
  private static final Logger LOG = LoggerFactory.getLogger(FrameLine.class);
  private static final int BUFFER = 4096;

  /** How often a frame is said that nobody will repeat. */
  private static final int LAST_WORDS = 3;

  /** A read that took longer than this had to wait, so its bytes have only just come. */
  private static final long WAITED_NS = 1_000_000;

  /**
   * A frame received.
   *
   * @param sinceNs it reached this end no earlier than this, however late it was read
   */
  record Received(Frame frame, long sinceNs) {}

  private final Wire wire;
  private final FrameParser parser = new FrameParser(this::payload);
  private final byte[] buffer = new byte[BUFFER];
  private final Deque<Received> received = new ArrayDeque<>();
  private MessageCodec codec = MessageCodec.beforeHello();
  private long emptyNs;
  private long heardNs;
  private boolean asking;
  private long askedNs;

  private final Tally tally = new Tally();

  FrameLine(Wire wire) {
    this.wire = wire;
    this.emptyNs = wire.nowNs();
    this.heardNs = emptyNs;
  }

  String name() {
    return wire.name();
  }

  long nowNs() {
    return wire.nowNs();
  }

  MessageCodec codec() {
    return codec;
  }

  void use(MessageCodec known) {
    codec = known;
  }

  /** Ends whatever half a frame lies in the other's buffer. */
  void wake() {
    wire.write(new byte[1]);
    tally.bytesSent++;
  }

  byte[] encode(int session, Message message) {
    return codec.encode(new Frame(session, message));
  }

  /** Sends a frame that is to be answered. */
  void ask(int session, Message message) {
    if (!asking) {
      asking = true;
      askedNs = wire.nowNs();
    }
    LOG.trace("{} > {}", wire.name(), message);
    put(encode(session, message));
  }

  /** Sends a frame that has no answer of its own. */
  void put(byte[] frame) {
    wire.write(frame);
    tally.framesSent++;
    tally.bytesSent += frame.length;
  }

  /** A last frame, and no more beats; touches nothing that belongs to the thread of this line. */
  void abandon(byte[] frame) {
    wire.keepAlive(new byte[0], 0, 0);
    for (int i = 0; i < LAST_WORDS; i++) {
      wire.write(frame);
    }
  }

  /**
   * Reads once, waiting at most until the deadline.
   *
   * @return whether bytes came
   */
  boolean receive(long deadlineNs) {
    long calledNs = wire.nowNs();
    int length = wire.read(buffer, deadlineNs);
    long returnedNs = wire.nowNs();
    if (length == 0 || returnedNs - calledNs > WAITED_NS) {
      emptyNs = returnedNs;
    }
    tally.bytesReceived += length;
    parser.feed(buffer, 0, length);
    return length > 0;
  }

  /** The next frame that was received and not looked at yet. */
  Optional<Received> poll() {
    return Optional.ofNullable(received.poll());
  }

  /** When the last valid frame was read. */
  long heardNs() {
    return heardNs;
  }

  /** Whether something was asked since, and not one valid frame came. */
  boolean isAsking() {
    return asking;
  }

  /** Takes time in which nobody listened, nor asked again, off what an answer took. */
  void forgive(long absentNs) {
    askedNs = Math.min(wire.nowNs(), askedNs + absentNs);
  }

  /** When the first of those questions was sent. */
  long askedNs() {
    return askedNs;
  }

  /** A question to be repeated as the protocol says. */
  Asking asking(String what, long firstNs, Runnable send) {
    return asking(what, firstNs, LinkTimes.REQUEST_TRIES, send);
  }

  Asking asking(String what, long firstNs, int tries, Runnable send) {
    long waitedMs = LinkTimes.toMs(LinkTimes.REQUEST_NS * tries);
    return new Asking(
        firstNs,
        tries,
        send,
        () -> tally.requestsRepeated++,
        () -> LinkProblems.noAnswer(wire.name(), what, tries, waitedMs));
  }

  Tally tally() {
    return tally;
  }

  LinkCounters counters() {
    return tally.with(parser);
  }

  private void payload(byte[] bytes, int offset, int length) {
    heardNs = wire.nowNs();
    asking = false;
    try {
      Frame frame = codec.decode(bytes, offset, length);
      LOG.trace("{} < {}", wire.name(), frame);
      received.add(new Received(frame, emptyNs));
    } catch (BadFrameException refused) {
      tally.framesRefused++;
      LOG.debug("{} < not understood: {}", wire.name(), refused.getMessage());
    }
  }
}
