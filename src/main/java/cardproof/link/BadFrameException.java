package cardproof.link;

import java.util.Locale;

/**
 * A frame that came whole but cannot be understood. Holds what a NACK needs; carries no stack
 * trace, since it is an event of the line and not of the program.
 */
public final class BadFrameException extends Exception {
  private static final long serialVersionUID = 1L;

  private final int session;
  private final int type;
  private final NackReason reason;
  private final int detail;

  BadFrameException(int session, int type, NackReason reason, int detail) {
    super(
        String.format(
            Locale.ROOT,
            "frame of type 0x%02X: %s, at offset %d of the body",
            type,
            reason,
            detail),
        null,
        false,
        false);
    this.session = session;
    this.type = type;
    this.reason = reason;
    this.detail = detail;
  }

  /** Session field of the frame. */
  public int session() {
    return session;
  }

  /** Type byte of the frame. */
  public int type() {
    return type;
  }

  /** Unknown type, bad length or bad field. */
  public NackReason reason() {
    return reason;
  }

  /** For a bad field its offset in the body, else 0. */
  public int detail() {
    return detail;
  }

  /** The answer that refuses this frame. */
  public Nack nack(int next) {
    return new Nack(reason, type, next, detail);
  }
}
