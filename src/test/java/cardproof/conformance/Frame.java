package cardproof.conformance;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.Optional;
import java.util.zip.CRC32;

/**
 * One frame as section 1 of {@code protocol.md} has it, written from that page and sharing nothing
 * with the driver: type, session, body, CRC-32, COBS, one zero byte.
 */
record Frame(int type, int session, byte[] body) {
  private static final int OVERHEAD = 9;

  static Frame of(int type, int session) {
    return new Frame(type, session, new byte[0]);
  }

  /** Bytes before COBS, with the check. */
  byte[] plain() {
    Bytes bytes = new Bytes().u8(type).u32(session).raw(body);
    CRC32 crc = new CRC32();
    crc.update(bytes.done());
    return bytes.u32(crc.getValue()).done();
  }

  /** What is sent, with the ending zero. */
  byte[] line() {
    return stuffed(plain());
  }

  /** COBS (Cheshire and Baker, 1999) of any bytes, with the ending zero. */
  static byte[] stuffed(byte[] plain) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    int from = 0;
    while (true) {
      int end = from;
      while (end < plain.length && end - from < 254 && plain[end] != 0) {
        end++;
      }
      out.write(end - from + 1);
      out.write(plain, from, end - from);
      boolean full = end - from == 254;
      if (end == plain.length) {
        out.write(0);
        return out.toByteArray();
      }
      from = full ? end : end + 1;
    }
  }

  /** The frame in what came between two zero bytes; empty where it is damaged. */
  static Optional<Frame> parse(byte[] line) {
    return unstuffed(line).filter(plain -> plain.length >= OVERHEAD).flatMap(Frame::checked);
  }

  private static Optional<Frame> checked(byte[] plain) {
    int bodyEnd = plain.length - 4;
    Fields head = new Fields(plain);
    Frame frame = new Frame(head.u8(0), (int) head.u32(1), Arrays.copyOfRange(plain, 5, bodyEnd));
    return Arrays.equals(frame.plain(), plain) ? Optional.of(frame) : Optional.empty();
  }

  private static Optional<byte[]> unstuffed(byte[] line) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    int at = 0;
    while (at < line.length) {
      int code = line[at] & 0xFF;
      if (code == 0 || at + code > line.length) {
        return Optional.empty();
      }
      out.write(line, at + 1, code - 1);
      at += code;
      if (code < 255 && at < line.length) {
        out.write(0);
      }
    }
    return Optional.of(out.toByteArray());
  }

  @Override
  public String toString() {
    return "%02x of session %08x: %s".formatted(type, session, HexFormat.of().formatHex(body));
  }
}
