package cardproof.link;

import static java.nio.ByteOrder.LITTLE_ENDIAN;
import static java.nio.charset.StandardCharsets.ISO_8859_1;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.util.Arrays;
import java.util.BitSet;

/** The body of one frame as numbers and sets at offsets; little-endian, unsigned. */
final class Body {
  private static final VarHandle U16 =
      MethodHandles.byteArrayViewVarHandle(short[].class, LITTLE_ENDIAN);
  private static final VarHandle U32 =
      MethodHandles.byteArrayViewVarHandle(int[].class, LITTLE_ENDIAN);
  private static final VarHandle U64 =
      MethodHandles.byteArrayViewVarHandle(long[].class, LITTLE_ENDIAN);

  private final byte[] bytes;
  private final int start;
  private final int length;

  Body(byte[] bytes, int start, int length) {
    this.bytes = bytes;
    this.start = start;
    this.length = length;
  }

  int length() {
    return length;
  }

  int u8(int offset) {
    return bytes[start + offset] & 0xFF;
  }

  int u16(int offset) {
    return (short) U16.get(bytes, start + offset) & 0xFFFF;
  }

  int i32(int offset) {
    return (int) U32.get(bytes, start + offset);
  }

  long u32(int offset) {
    return i32(offset) & 0xFFFF_FFFFL;
  }

  long i64(int offset) {
    return (long) U64.get(bytes, start + offset);
  }

  /** The string of {@code size} bytes as a set; bits beyond the last channel are kept. */
  BitSet set(int offset, int size) {
    if (size <= Long.BYTES) {
      long word = 0;
      for (int i = 0; i < size; i++) {
        word |= (long) u8(offset + i) << (8 * i);
      }
      return BitSet.valueOf(new long[] {word});
    }
    int from = start + offset;
    return BitSet.valueOf(Arrays.copyOfRange(bytes, from, from + size));
  }

  String ascii(int offset, int size) {
    return new String(bytes, start + offset, size, ISO_8859_1);
  }

  void putU8(int offset, int value) {
    bytes[start + offset] = (byte) inRange(value, 0xFF);
  }

  void putU16(int offset, int value) {
    U16.set(bytes, start + offset, (short) inRange(value, 0xFFFF));
  }

  void putI32(int offset, int value) {
    U32.set(bytes, start + offset, value);
  }

  void putU32(int offset, long value) {
    U32.set(bytes, start + offset, (int) inRange(value, 0xFFFF_FFFFL));
  }

  void putI64(int offset, long value) {
    U64.set(bytes, start + offset, value);
  }

  void putSet(int offset, int channels, BitSet set) {
    if (set.length() > channels) {
      throw new IllegalArgumentException(
          "channel " + (set.length() - 1) + " of a fixture with " + channels);
    }
    if (channels <= Long.SIZE) {
      long[] words = set.toLongArray();
      long word = words.length == 0 ? 0 : words[0];
      for (int i = 0; i < setSize(channels); i++) {
        bytes[start + offset + i] = (byte) (word >>> (8 * i));
      }
    } else {
      byte[] string = set.toByteArray();
      System.arraycopy(string, 0, bytes, start + offset, string.length);
    }
  }

  /** Bytes of a set of {@code channels} channels. */
  static int setSize(int channels) {
    return (channels + 7) / 8;
  }

  private static long inRange(long value, long most) {
    if (value < 0 || value > most) {
      throw new IllegalArgumentException(value + " does not fit a field of 0 to " + most);
    }
    return value;
  }
}
