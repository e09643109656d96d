package cardproof.link;

/**
 * Takes bytes from the line as they come and hands on the payload of each whole frame.
 *
 * <p>Bytes up to a zero are one frame; an empty one is ignored. One that does not decode, is too
 * short or too long, or fails its check is counted as damaged and dropped, and the next zero puts
 * the parser in step again. Memory is bounded by the longest frame. Not thread-safe.
 */
public final class FrameParser {
  /** Receives payloads. */
  public interface Sink {
    /**
     * Type, session and body of one frame, at {@code bytes[offset..offset+length)}; valid only
     * during the call.
     */
    void payload(byte[] bytes, int offset, int length);
  }

  private final Sink sink;
  private final int longest;
  private final byte[] encoded;
  private int used;
  private boolean tooLong;
  private long whole;
  private long damaged;

  /** A parser of frames of any length that the protocol allows. */
  public FrameParser(Sink sink) {
    this(sink, FrameLayout.LONGEST);
  }

  /**
   * A parser that takes no longer frames than this.
   *
   * @param longest bytes before COBS
   */
  public FrameParser(Sink sink, int longest) {
    if (longest < FrameLayout.SHORTEST || longest > FrameLayout.LONGEST) {
      throw new IllegalArgumentException("longest frame of " + longest + " bytes");
    }
    this.sink = sink;
    this.longest = longest;
    this.encoded = new byte[Cobs.longest(longest)];
  }

  public void feed(byte[] bytes, int offset, int length) {
    for (int i = offset; i < offset + length; i++) {
      if (bytes[i] == 0) {
        endFrame();
      } else if (used < encoded.length) {
        encoded[used++] = bytes[i];
      } else {
        tooLong = true;
      }
    }
  }

  /** Frames that came whole. */
  public long whole() {
    return whole;
  }

  /** Frames that were dropped. */
  public long damaged() {
    return damaged;
  }

  private void endFrame() {
    int length = used;
    boolean fits = !tooLong;
    used = 0;
    tooLong = false;
    if (length == 0) {
      return;
    }
    int payload = fits ? checked(Cobs.decodeInPlace(encoded, length)) : -1;
    if (payload < 0) {
      damaged++;
    } else {
      whole++;
      sink.payload(encoded, 0, payload);
    }
  }

  /** Length of the payload of a decoded frame, or -1 when it is damaged. */
  private int checked(int length) {
    if (length < FrameLayout.SHORTEST || length > longest) {
      return -1;
    }
    int payload = length - FrameLayout.CHECK_LENGTH;
    int wanted = new Body(encoded, payload, FrameLayout.CHECK_LENGTH).i32(0);
    return FrameEncoder.check(encoded, payload) == wanted ? payload : -1;
  }
}
