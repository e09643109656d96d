package cardproof.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/**
 * Holds the codec against section 10 of the protocol's page. The bytes there were worked out with
 * an independent script (struct packing, zlib's CRC-32, and COBS by the paper), not with this
 * codec.
 */
class WorkedFramesTest {
  private static final Path PAGE = Path.of("firmware-notes", "protocol.md");
  private static final Pattern EXAMPLE =
      Pattern.compile(
          "\\*\\*(\\w+)\\*\\*[^*]*?\\n    plain ([0-9a-f \\n]+?)\\n    line  ([0-9a-f \\n]+?)\\n(?=\\n|$)");

  private static final MessageCodec CODEC = new MessageCodec(8, 8);
  private static final int GREETING = 0x11223344;
  private static final int SESSION = 0x5A17C0DE;
  private static final int BOOT = 0x0A0B0C0D;

  @TestFactory
  List<DynamicTest> everyFrameOnThePage() throws IOException {
    String page = Files.readString(PAGE).replace("\r\n", "\n");
    String section = page.substring(page.indexOf("## 10. "));
    Map<String, Frame> frames = frames();
    List<DynamicTest> tests = new ArrayList<>();
    Matcher example = EXAMPLE.matcher(section);
    while (example.find()) {
      Frame frame = frames.remove(example.group(1));
      byte[] plain = bytes(example.group(2));
      byte[] line = bytes(example.group(3));
      tests.add(DynamicTest.dynamicTest(example.group(1), () -> check(frame, plain, line)));
    }
    assertThat(frames.keySet()).as("frames that the page lacks").isEmpty();
    return tests;
  }

  private static void check(Frame frame, byte[] plain, byte[] line) {
    assertThat(CODEC.encode(frame)).isEqualTo(line);
    List<Frame> decoded = new ArrayList<>();
    FrameParser parser =
        new FrameParser(
            (bytes, offset, length) -> {
              assertThat(Arrays.copyOfRange(bytes, offset, offset + length))
                  .isEqualTo(Arrays.copyOf(plain, plain.length - FrameLayout.CHECK_LENGTH));
              decoded.add(decode(bytes, offset, length));
            });
    parser.feed(line, 0, line.length);
    assertThat(decoded).containsExactly(frame);
  }

  private static Frame decode(byte[] bytes, int offset, int length) {
    try {
      return CODEC.decode(bytes, offset, length);
    } catch (BadFrameException refused) {
      throw new AssertionError(refused);
    }
  }

  private static Map<String, Frame> frames() {
    Map<String, Frame> frames = new LinkedHashMap<>();
    frames.put("HELLO", new Frame(GREETING, new Hello(1, 0)));
    frames.put(
        "HELLO_R",
        new Frame(
            GREETING,
            new HelloReply(1, 0, "1.0.0", 1, BOOT, 0, 8, 8, 4, 128, 3100, 30, 0, "Gull Point", 0)));
    frames.put(
        "OPEN",
        new Frame(SESSION, new Open(BOOT, 0, 1000, 8, 5000, 2000, 10_000, set(0xFF), set(0xFF))));
    frames.put("ARM", new Frame(SESSION, new Arm()));
    frames.put(
        "STEP",
        new Frame(
            SESSION,
            new Step(
                0, true, false, false, 350_000, 415_000, 65_000, 0, set(0x05), set(0xFF), set(0x0A),
                set(0xFF), set(0x80))));
    frames.put("RESULT", new Frame(SESSION, result()));
    frames.put("BEAT", new Frame(SESSION, new Beat(1)));
    frames.put(
        "STATUS",
        new Frame(
            SESSION,
            new Status(
                FixtureState.READY,
                DropCause.OPEN,
                255,
                BOOT,
                1,
                1,
                1,
                1_400_000,
                5,
                0,
                set(0x05),
                set(0x0A),
                set(0))));
    addVersion11(frames);
    return frames;
  }

  private static void addVersion11(Map<String, Frame> frames) {
    frames.put(
        "HELLO_R_1",
        new Frame(
            GREETING,
            new HelloReply(
                1,
                1,
                "1.1.0",
                1,
                BOOT,
                0,
                8,
                8,
                4,
                128,
                3100,
                30,
                0x3C,
                "Gull Point",
                0,
                8,
                1000)));
    frames.put(
        "SEQUENCE",
        new Frame(
            SESSION,
            new Sequence(
                new Step(
                    1, true, false, false, true, 430_000, 495_000, 65_000, 0, set(0x01), set(0xFF),
                    set(0x0A), set(0xFF), set(0)),
                List.of(
                    new Switching(20_000, set(0x81), set(0xFF)),
                    new Switching(60_000, set(0x01), set(0xFF))))));
    frames.put("READ_EDGES", new Frame(SESSION, new ReadEdges(1, 0)));
    frames.put(
        "EDGES",
        new Frame(
            SESSION,
            new Edges(
                1,
                3,
                0,
                0,
                List.of(
                    new Edge(35_100, 1, true),
                    new Edge(35_150, 3, true),
                    new Edge(35_600, 3, false)))));
    frames.put("SUPPLY", new Frame(SESSION, new Supply(true)));
    frames.put("SUPPLY_R", new Frame(SESSION, new SupplyReply(true)));
    frames.put("READ_SENSE", new Frame(SESSION, new ReadSense()));
    frames.put("SENSE", new Frame(SESSION, new Sense(11_940, 412)));
  }

  private static Result result() {
    int flags = ResultFlag.QUIET.bit() | ResultFlag.MATCHED.bit() | ResultFlag.EARLY.bit();
    List<MovedWatch> moved =
        List.of(new MovedWatch(1, 15_100, 15_700, 3, 1), new MovedWatch(3, 15_200, 33_000, 5, 2));
    return new Result(
        0, 1, flags, 1_234_567, 98_000, 4, 17_300, 29, set(0), set(0x0A), set(0), set(0), set(0),
        set(0), 2, 0, moved);
  }

  private static BitSet set(long bits) {
    return BitSet.valueOf(new long[] {bits});
  }

  private static byte[] bytes(String hex) {
    return HexFormat.of().parseHex(hex.replaceAll("\\s", ""));
  }
}
