package cardproof.conformance;

import java.io.ByteArrayOutputStream;
import java.util.BitSet;

/** Builds a body, numbers little-endian. */
final class Bytes {
  private final ByteArrayOutputStream out = new ByteArrayOutputStream();

  Bytes u8(int value) {
    out.write(value);
    return this;
  }

  Bytes u16(int value) {
    return u8(value).u8(value >> 8);
  }

  Bytes u32(long value) {
    return u16((int) value).u16((int) (value >> 16));
  }

  /** A set of channels in so many bytes: channel 0 is bit 0 of the first. */
  Bytes set(BitSet channels, int size) {
    byte[] bits = channels.toByteArray();
    for (int i = 0; i < size; i++) {
      u8(i < bits.length ? bits[i] : 0);
    }
    return this;
  }

  Bytes raw(byte[] bytes) {
    out.writeBytes(bytes);
    return this;
  }

  byte[] done() {
    return out.toByteArray();
  }
}
