package cardproof.link;

import java.util.Arrays;

/** Frames whose check holds, whatever is in them; for peers that lie. */
public final class RawFrames {
  private RawFrames() {}

  /**
   * @param body cut where the frame would be longer than any may be
   */
  public static byte[] encode(int type, int session, byte[] body) {
    int most = FrameLayout.LONGEST - FrameLayout.SHORTEST;
    byte[] buffer = FrameEncoder.buffer(FrameLayout.BODY_OFFSET + Math.min(body.length, most));
    Body head = new Body(buffer, 0, FrameLayout.BODY_OFFSET);
    head.putU8(FrameLayout.TYPE_OFFSET, type);
    head.putI32(FrameLayout.SESSION_OFFSET, session);
    System.arraycopy(body, 0, buffer, FrameLayout.BODY_OFFSET, Math.min(body.length, most));
    return FrameEncoder.encode(buffer);
  }

  /** The same frame with one byte of type, session or body another one, and a check that holds. */
  static byte[] altered(byte[] frame, int place, int xor) {
    byte[] plain = frame.clone();
    int length = Cobs.decodeInPlace(plain, plain.length - 1);
    byte[] buffer = Arrays.copyOf(plain, length);
    buffer[place % (length - FrameLayout.CHECK_LENGTH)] ^= (byte) xor;
    return FrameEncoder.encode(buffer);
  }
}
