package cardproof.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class MessageCodecTest {
  private static final MessageCodec SMALL = new MessageCodec(8, 8);

  /** Check value of the CRC-32 of ITU-T V.42 and RFC 1952, over the digits 1 to 9. */
  @Test
  void checkValueOfTheCrc() {
    byte[] digits = "123456789".getBytes(StandardCharsets.US_ASCII);
    assertThat(FrameEncoder.check(digits, digits.length)).isEqualTo(0xCBF43926);
  }

  @Test
  void unknownTypeIsNamed() {
    BadFrameException refused = refused(SMALL, 0x19, 1, 2, 3, 4);
    assertThat(refused.reason()).isEqualTo(NackReason.UNKNOWN_TYPE);
    assertThat(refused.session()).isEqualTo(0x04030201);
    assertThat(refused.nack(7)).isEqualTo(new Nack(NackReason.UNKNOWN_TYPE, 0x19, 7, 0));
  }

  @Test
  void lengthOfTheHostsFramesIsExact() {
    assertThat(refused(SMALL, 0x07, 0, 0, 0, 0, 1, 2, 3).reason()).isEqualTo(NackReason.BAD_LENGTH);
    assertThat(refused(SMALL, 0x07, 0, 0, 0, 0, 1, 2, 3, 4, 5).reason())
        .isEqualTo(NackReason.BAD_LENGTH);
    assertThat(refused(SMALL, 0x03, 0, 0, 0, 0, 1).reason()).isEqualTo(NackReason.BAD_LENGTH);
  }

  @Test
  void helloOfALaterVersionMayBeLonger() throws BadFrameException {
    assertThat(decode(SMALL, 0x01, 9, 0, 0, 0, 2, 3, 44, 55))
        .isEqualTo(new Frame(9, new Hello(2, 3)));
  }

  /** Another major version may lay out the rest as it likes. */
  @Test
  void ofAnotherMajorVersionOnlyTheVersionIsRead() throws BadFrameException {
    Frame frame = decode(MessageCodec.beforeHello(), 0x81, 9, 0, 0, 0, 'B', 'E', 'N', 'C', 2, 5);
    assertThat(frame.message()).isEqualTo(HelloReply.versionOnly(2, 5));
  }

  @Test
  void otherLettersAreNoFixture() {
    BadFrameException refused = refused(SMALL, 0x81, 9, 0, 0, 0, 'B', 'E', 'N', 'D', 2, 5);
    assertThat(refused.reason()).isEqualTo(NackReason.BAD_FIELD);
    assertThat(refused.detail()).isZero();
  }

  /** Offsets of the table of STEP in section 5. */
  @ParameterizedTest
  @CsvSource({
    "0, 5, 0, 0, 9",
    "100, 0, 0, 0, 13",
    "100, 101, 0, 0, 13",
    "100, 100, 101, 0, 17",
    "100, 100, 100, 256, 23",
    "100, 100, 100, 128, -1",
  })
  void fieldsOfAStep(long watchUs, long quietUs, long dwellUs, int expect, int offset) {
    BitSet none = new BitSet();
    BitSet expected = BitSet.valueOf(new long[] {expect});
    Step step =
        new Step(
            0, false, false, true, 50, watchUs, quietUs, dwellUs, none, none, expected, none, none);
    assertThat(SMALL.badField(step))
        .isEqualTo(offset < 0 ? OptionalInt.empty() : OptionalInt.of(offset));
  }

  /** Offsets of the table of OPEN in section 5. */
  @ParameterizedTest
  @CsvSource({
    "99, 8, 5000, 1, 8",
    "10001, 8, 5000, 1, 8",
    "1000, 1, 5000, 1, 10",
    "1000, 2, 15, 1, 11",
    "1000, 2, 16, 0, 15",
    "1000, 2, 16, 1, -1",
  })
  void fieldsOfOpen(int silenceMs, int moves, int changes, long holdMs, int offset) {
    BitSet none = new BitSet();
    Open open = new Open(1, 0, silenceMs, moves, changes, 2000, holdMs, none, none);
    assertThat(SMALL.badField(open))
        .isEqualTo(offset < 0 ? OptionalInt.empty() : OptionalInt.of(offset));
  }

  @Test
  void whatDoesNotFitIsRefused() {
    BitSet ninth = new BitSet();
    ninth.set(8);
    BitSet none = new BitSet();
    Open open = new Open(1, 0, 1000, 8, 5000, 2000, 10_000, ninth, none);
    assertThatThrownBy(() -> SMALL.encode(new Frame(1, open)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("channel 8");
    assertThat(SMALL.badField(open)).hasValue(19);
    assertThatThrownBy(() -> SMALL.encode(new Frame(1, new Hello(256, 0))))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void partsComeTogetherInAnyOrder() {
    int watches = 255;
    Result whole = result(watches);
    MessageCodec codec = new MessageCodec(8, watches);
    List<Result> parts = new ResultParts(watches, Protocol.LONGEST_FRAME).split(whole);
    assertThat(parts).hasSizeGreaterThan(10);
    for (Result part : parts) {
      assertThat(codec.frameLength(part)).isLessThanOrEqualTo(Protocol.LONGEST_FRAME);
      assertThat(codec.encode(new Frame(1, part))).isNotEmpty();
      assertThat(codec.badField(part)).isEmpty();
    }
    List<Result> repeated = new ArrayList<>(parts.subList(3, parts.size()));
    repeated.addAll(parts.subList(0, 3).stream().sorted((a, b) -> -1).toList());
    ResultAssembler assembler = new ResultAssembler(5);
    for (Result part : repeated.subList(0, repeated.size() - 1)) {
      assertThat(assembler.add(part)).isEmpty();
      assertThat(assembler.add(part)).isEmpty();
    }
    assertThat(assembler.add(repeated.get(repeated.size() - 1))).contains(whole);
  }

  @Test
  void aSmallResultIsOnePart() {
    Result none = result(3).withEntries(0, 0, List.of());
    assertThat(new ResultParts(3, 128).split(none)).containsExactly(none);
    assertThat(new ResultAssembler(5).add(none)).contains(none);
  }

  private static Result result(int watches) {
    BitSet none = new BitSet();
    List<MovedWatch> moved =
        IntStream.range(0, watches).mapToObj(i -> new MovedWatch(i, i, i + 1, 1, 1)).toList();
    return new Result(
        5, 6, 3, 1000, 100, 1, 20, 30, none, none, none, none, none, none, watches, 0, moved);
  }

  private static BadFrameException refused(MessageCodec codec, int... payload) {
    return catchThrowableOfType(BadFrameException.class, () -> decode(codec, payload));
  }

  private static Frame decode(MessageCodec codec, int... payload) throws BadFrameException {
    byte[] bytes = new byte[payload.length];
    for (int i = 0; i < bytes.length; i++) {
      bytes[i] = (byte) payload[i];
    }
    return codec.decode(bytes, 0, bytes.length);
  }
}
