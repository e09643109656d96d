package cardproof.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
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
    BadFrameException refused = refused(SMALL, 0x1A, 1, 2, 3, 4);
    assertThat(refused.reason()).isEqualTo(NackReason.UNKNOWN_TYPE);
    assertThat(refused.session()).isEqualTo(0x04030201);
    assertThat(refused.nack(7)).isEqualTo(new Nack(NackReason.UNKNOWN_TYPE, 0x1A, 7, 0));
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

  /** Offsets of the tables of STEP and SEQUENCE, for one byte of drives and one of watches. */
  @Test
  void fieldsOfASequence() {
    assertThat(SMALL.badField(sequence())).hasValue(26);
    assertThat(SMALL.badField(sequence(0))).hasValue(27);
    assertThat(SMALL.badField(sequence(100))).hasValue(27);
    assertThat(SMALL.badField(sequence(10, 10))).hasValue(33);
    assertThat(SMALL.badField(sequence(10, 9))).hasValue(33);
    assertThat(SMALL.badField(sequence(1, 99))).isEmpty();
  }

  private static Sequence sequence(long... timesUs) {
    BitSet none = new BitSet();
    Step step = new Step(0, false, false, false, 50, 100, 20, 0, none, none, none, none, none);
    List<Switching> entries =
        LongStream.of(timesUs).mapToObj(at -> new Switching(at, none, none)).toList();
    return new Sequence(step, entries);
  }

  @Test
  void aSequenceIsAsLongAsItsEntriesSay() throws BadFrameException {
    Frame frame = new Frame(3, sequence(1, 2, 3));
    byte[] line = SMALL.encode(frame);
    List<Frame> back = new ArrayList<>();
    new FrameParser((bytes, offset, length) -> back.add(decoded(bytes, offset, length)))
        .feed(line, 0, line.length);
    assertThat(back).containsExactly(frame);
    int[] cut = new int[5 + 27 + 5];
    cut[0] = 0x10;
    cut[5 + 26] = 1;
    assertThat(refused(SMALL, cut).reason()).isEqualTo(NackReason.BAD_LENGTH);
    assertThat(Sequence.mostEntries(8, 8, 128)).isEqualTo((128 - 9 - 27) / 6);
    assertThat(Sequence.mostEntries(8, 8, 30)).isZero();
  }

  private static Frame decoded(byte[] bytes, int offset, int length) {
    try {
      return SMALL.decode(bytes, offset, length);
    } catch (BadFrameException refused) {
      throw new AssertionError(refused);
    }
  }

  /** A later minor version may append; the head says how long it must be at least. */
  @Test
  void helloReplyOfEachMinorVersion() {
    HelloReply old =
        new HelloReply(1, 0, "1.0.0", 1, 7, 0, 8, 8, 4, 128, 3100, 30, 0, "Gull Point", 0);
    HelloReply now =
        new HelloReply(1, 1, "1.0.0", 1, 7, 0, 8, 8, 4, 128, 3100, 30, 12, "Gull Point", 0, 9, 70);
    assertThat(SMALL.frameLength(now) - SMALL.frameLength(old)).isEqualTo(3);
  }

  @Test
  void resultsEndWithRailAndCurrentWhereTheFixtureSenses() throws BadFrameException {
    MessageCodec sensing = new MessageCodec(8, 8, true);
    Result plain = result(8);
    StepSense sense = new StepSense(12_000, 11_700, 400, 65_535);
    Result sensed =
        new Result(
            plain.number(),
            plain.next(),
            plain.flags(),
            plain.startUs(),
            plain.durationUs(),
            plain.skewUs(),
            plain.gapUs(),
            plain.blindUs(),
            plain.before(),
            plain.last(),
            plain.atDwell(),
            plain.unstable(),
            plain.glitched(),
            plain.stirred(),
            plain.movedTotal(),
            plain.firstEntry(),
            plain.moved(),
            Optional.of(sense));
    assertThat(sensing.frameLength(sensed)).isEqualTo(SMALL.frameLength(plain) + 8);
    byte[] line = sensing.encode(new Frame(1, sensed));
    List<Message> back = new ArrayList<>();
    new FrameParser(
            (bytes, offset, length) -> {
              try {
                back.add(sensing.decode(bytes, offset, length).message());
              } catch (BadFrameException refused) {
                throw new AssertionError(refused);
              }
            })
        .feed(line, 0, line.length);
    assertThat(back).containsExactly(sensed);
    for (Result part : new ResultParts(8, 79, true).split(sensed)) {
      assertThat(sensing.frameLength(part)).isLessThanOrEqualTo(79);
      assertThat(part.sense()).contains(sense);
    }
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
