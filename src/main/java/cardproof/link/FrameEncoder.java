package cardproof.link;

import java.util.Arrays;
import java.util.zip.CRC32;

/** Puts the check behind a payload and makes it ready for the line. Stateless. */
final class FrameEncoder {
  private FrameEncoder() {}

  /** A buffer with room for a payload of this length and its check. */
  static byte[] buffer(int payloadLength) {
    return new byte[payloadLength + FrameLayout.CHECK_LENGTH];
  }

  /**
   * The bytes on the line for the payload in a {@link #buffer}, the ending zero included.
   *
   * @throws IllegalArgumentException when the frame would be longer than the protocol allows
   */
  static byte[] encode(byte[] buffer) {
    if (buffer.length > FrameLayout.LONGEST) {
      throw new IllegalArgumentException(
          "a frame of " + buffer.length + " bytes; at most " + FrameLayout.LONGEST);
    }
    int length = buffer.length - FrameLayout.CHECK_LENGTH;
    new Body(buffer, length, FrameLayout.CHECK_LENGTH).putI32(0, check(buffer, length));
    byte[] line = new byte[Cobs.longest(buffer.length) + 1];
    int end = Cobs.encode(buffer, buffer.length, line, 0) + 1;
    return end == line.length ? line : Arrays.copyOf(line, end);
  }

  /** CRC-32 of ITU-T V.42 and RFC 1952 over the first {@code length} bytes. */
  static int check(byte[] bytes, int length) {
    CRC32 crc = new CRC32();
    crc.update(bytes, 0, length);
    return (int) crc.getValue();
  }
}
