package cardproof.link;

import static org.assertj.core.api.Assertions.assertThat;

import com.code_intelligence.jazzer.api.FuzzedDataProvider;
import com.code_intelligence.jazzer.junit.FuzzTest;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Bytes to frames to messages and back, whatever the bytes are. */
class FrameFuzzTest {
  /** In whatever portions bytes come, the same frames come of them, and every one is counted. */
  @FuzzTest(maxDuration = "10m")
  void bytes(byte[] data) {
    List<byte[]> atOnce = new ArrayList<>();
    FrameParser whole = new FrameParser(keeping(atOnce));
    whole.feed(data, 0, data.length);
    List<byte[]> oneByOne = new ArrayList<>();
    FrameParser slow = new FrameParser(keeping(oneByOne));
    for (int i = 0; i < data.length; i++) {
      slow.feed(data, i, 1);
    }
    assertThat(oneByOne).usingElementComparator(Arrays::compare).isEqualTo(atOnce);
    assertThat(whole.whole()).isEqualTo(atOnce.size()).isEqualTo(slow.whole());
    assertThat(whole.whole() + whole.damaged()).isEqualTo(ended(data));
    for (byte[] payload : atOnce) {
      comesBack(new MessageCodec(12, 20), payload);
    }
  }

  /** A payload whose check holds, for fixtures of every width. */
  @FuzzTest(maxDuration = "10m")
  void payloads(FuzzedDataProvider data) {
    MessageCodec codec = new MessageCodec(data.consumeInt(1, 255), data.consumeInt(1, 255));
    byte[] payload = data.consumeRemainingAsBytes();
    if (payload.length >= FrameLayout.BODY_OFFSET) {
      comesBack(codec, payload);
    }
  }

  /** Without a zero, and back again; anything else is refused or shorter than it was. */
  @FuzzTest(maxDuration = "10m")
  void stuffing(byte[] data) {
    byte[] line = new byte[Cobs.longest(data.length)];
    int length = Cobs.encode(data, data.length, line, 0);
    assertThat(Arrays.copyOf(line, length)).doesNotContain(0);
    assertThat(Cobs.decodeInPlace(line, length)).isEqualTo(data.length);
    assertThat(Arrays.copyOf(line, data.length)).isEqualTo(data);
    assertThat(Cobs.decodeInPlace(data.clone(), data.length)).isLessThanOrEqualTo(data.length);
  }

  private static void comesBack(MessageCodec codec, byte[] payload) {
    Frame frame;
    try {
      frame = codec.decode(payload, 0, payload.length);
    } catch (BadFrameException refused) {
      assertThat(refused.reason())
          .isIn(NackReason.UNKNOWN_TYPE, NackReason.BAD_LENGTH, NackReason.BAD_FIELD);
      return;
    }
    if (codec.badField(frame.message()).isPresent() || isOfLaterVersion(frame.message())) {
      return; // nobody of this version sends it
    }
    byte[] line = codec.encode(frame);
    List<byte[]> again = new ArrayList<>();
    FrameParser parser = new FrameParser(keeping(again));
    parser.feed(line, 0, line.length);
    assertThat(again).hasSize(1);
    try {
      Frame back = codec.decode(again.get(0), 0, again.get(0).length);
      assertThat(back).isEqualTo(frame);
      assertThat(codec.encode(back)).isEqualTo(line);
    } catch (BadFrameException refused) {
      throw new AssertionError(frame + " was understood once", refused);
    }
  }

  /**
   * Of another major version only the version is understood, and a code that is not known yet as
   * just that.
   */
  private static boolean isOfLaterVersion(Message message) {
    return message instanceof HelloReply reply && reply.major() != Protocol.MAJOR
        || message instanceof Nack nack && nack.reason() == NackReason.UNKNOWN
        || message instanceof Status status
            && (status.state() == FixtureState.UNKNOWN || status.cause() == DropCause.UNKNOWN);
  }

  private static FrameParser.Sink keeping(List<byte[]> payloads) {
    return (bytes, at, length) -> payloads.add(Arrays.copyOfRange(bytes, at, at + length));
  }

  /** Stretches between zeros, the empty ones and an unfinished last one left out. */
  private static long ended(byte[] data) {
    long count = 0;
    for (int i = 1; i < data.length; i++) {
      count += data[i] == 0 && data[i - 1] != 0 ? 1 : 0;
    }
    return count;
  }
}
