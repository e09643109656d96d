package cardproof.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class CobsTest {
  private static final HexFormat HEX = HexFormat.of();

  /** Pairs of Cheshire &amp; Baker 1999 as commonly quoted, the ending zero left out. */
  @ParameterizedTest
  @CsvSource({
    "00, 0101",
    "0000, 010101",
    "11220033, 0311220233",
    "11223344, 0511223344",
    "11000000, 0211010101",
  })
  void published(String plain, String encoded) {
    checkPair(HEX.parseHex(plain), HEX.parseHex(encoded));
  }

  /** Around the longest group; worked out with an independent script from the paper's rules. */
  @Test
  void aroundTheLongestGroup() {
    checkPair(HEX.parseHex("001100"), HEX.parseHex("01021101"));
    checkPair(run(0x01, 0xFE), join("FF", run(0x01, 0xFE), ""));
    checkPair(join("00", run(0x01, 0xFE), ""), join("01FF", run(0x01, 0xFE), ""));
    checkPair(run(0x01, 0xFF), join("FF", run(0x01, 0xFE), "02FF"));
    checkPair(join("", run(0x02, 0xFF), "00"), join("FF", run(0x02, 0xFF), "0101"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "00", "02", "03FF", "FF11", "020011", "030011"})
  void refused(String damaged) {
    byte[] bytes = HEX.parseHex(damaged);
    assertThat(Cobs.decodeInPlace(bytes, bytes.length)).isEqualTo(-1);
  }

  private static void checkPair(byte[] plain, byte[] encoded) {
    byte[] into = new byte[Cobs.longest(plain.length)];
    int length = Cobs.encode(plain, plain.length, into, 0);
    assertThat(Arrays.copyOf(into, length)).isEqualTo(encoded);
    byte[] back = encoded.clone();
    assertThat(Arrays.copyOf(back, Cobs.decodeInPlace(back, back.length))).isEqualTo(plain);
  }

  private static byte[] run(int first, int last) {
    byte[] bytes = new byte[last - first + 1];
    for (int i = 0; i < bytes.length; i++) {
      bytes[i] = (byte) (first + i);
    }
    return bytes;
  }

  private static byte[] join(String head, byte[] middle, String tail) {
    return HEX.parseHex(head + HEX.formatHex(middle) + tail);
  }
}
