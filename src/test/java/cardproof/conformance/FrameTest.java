package cardproof.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** The suite's own codec against the worked frames of section 10 of the page. */
class FrameTest {
  private static final Pattern WORKED =
      Pattern.compile("    plain ([0-9a-f\\s]+?)\\n    line  ([0-9a-f\\s]+?)(?:\\n\\n|\\s*$)");

  @Test
  void agreesWithEveryWorkedFrame() throws IOException {
    String page = Files.readString(Path.of("firmware-notes/protocol.md"));
    Matcher frames = WORKED.matcher(page.substring(page.indexOf("## 10.")));
    int count = 0;
    while (frames.find()) {
      byte[] plain = hex(frames.group(1));
      byte[] line = hex(frames.group(2));
      assertThat(Frame.stuffed(plain)).isEqualTo(line);
      Frame frame = Frame.parse(Arrays.copyOf(line, line.length - 1)).orElseThrow();
      assertThat(frame.line()).isEqualTo(line);
      assertThat(frame.plain()).isEqualTo(plain);
      count++;
    }
    assertThat(count).isEqualTo(16);
  }

  private static byte[] hex(String text) {
    return HexFormat.of().parseHex(text.replaceAll("\\s+", ""));
  }

  /** Cheshire and Baker, 1999: a run of 254 bytes without a zero has code 255 and no zero after. */
  @Test
  void longRunsGoThere() {
    for (int length : List.of(253, 254, 255, 508, 509)) {
      byte[] plain = new byte[length];
      Arrays.fill(plain, (byte) 7);
      Frame frame = new Frame(0x3F, 1, plain);
      byte[] line = frame.line();
      assertThat(Frame.parse(Arrays.copyOf(line, line.length - 1)).orElseThrow().body())
          .isEqualTo(plain);
    }
  }

  @Test
  void everyFlippedBitIsSeen() {
    byte[] line = Frame.of(Type.ARM, 0x5A17C0DE).line();
    for (int bit = 0; bit < 8 * (line.length - 1); bit++) {
      byte[] damaged = Arrays.copyOf(line, line.length - 1);
      damaged[bit / 8] ^= (byte) (1 << bit % 8);
      assertThat(Frame.parse(damaged)).isEmpty();
    }
  }
}
