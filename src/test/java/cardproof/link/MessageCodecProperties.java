package cardproof.link;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.link.MessageArbitraries.Traffic;
import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

class MessageCodecProperties {
  @Provide
  Arbitrary<Traffic> traffic() {
    return MessageArbitraries.traffic(12);
  }

  @Provide
  Arbitrary<Traffic> single() {
    return MessageArbitraries.traffic(1);
  }

  @Provide
  Arbitrary<Random> source() {
    return Arbitraries.randomValue(random -> new Random(random.nextLong()));
  }

  /** However the line cuts the stream, the frames come out as they went in. */
  @Property
  void cutAnywhere(@ForAll("traffic") Traffic traffic, @ForAll("source") Random random) {
    MessageCodec codec = new MessageCodec(traffic.drives(), traffic.watches());
    ByteArrayOutputStream stream = new ByteArrayOutputStream();
    for (Frame frame : traffic.frames()) {
      stream.writeBytes(new byte[random.nextInt(3)]);
      stream.writeBytes(codec.encode(frame));
    }
    Received received = new Received(codec);
    received.takeInChunks(stream.toByteArray(), random);
    assertThat(received.frames).isEqualTo(traffic.frames());
    assertThat(received.parser.whole()).isEqualTo(traffic.frames().size());
    assertThat(received.parser.damaged()).isZero();
  }

  /** Garbage costs no frame once a zero has ended it, and each piece is counted once. */
  @Property
  void garbageBetween(@ForAll("traffic") Traffic traffic, @ForAll("source") Random random) {
    MessageCodec codec = new MessageCodec(traffic.drives(), traffic.watches());
    ByteArrayOutputStream stream = new ByteArrayOutputStream();
    int pieces = 0;
    for (Frame frame : traffic.frames()) {
      if (random.nextBoolean()) {
        int length = 1 + random.nextInt(random.nextInt(4) == 0 ? 3000 : 40);
        random.ints(length, 1, 256).forEach(stream::write);
        stream.write(0);
        pieces++;
      }
      stream.writeBytes(codec.encode(frame));
    }
    Received received = new Received(codec);
    received.takeInChunks(stream.toByteArray(), random);
    assertThat(received.frames).isEqualTo(traffic.frames());
    assertThat(received.parser.damaged()).isEqualTo(pieces);
  }

  /** CRC-32 finds every single error bit; COBS and the framing must not open a way round it. */
  @Property(tries = 60)
  void everyBitFlipIsRejected(@ForAll("single") Traffic traffic) {
    MessageCodec codec = new MessageCodec(traffic.drives(), traffic.watches());
    byte[] line = codec.encode(traffic.frames().get(0));
    for (int bit = 0; bit < line.length * 8; bit++) {
      byte[] flipped = line.clone();
      flipped[bit / 8] ^= (byte) (1 << bit % 8);
      Received received = new Received(codec);
      received.take(flipped);
      received.take(new byte[1]);
      assertThat(received.frames).as("bit %d", bit).isEmpty();
    }
  }

  @Property(tries = 200)
  void everyTruncationIsRejected(@ForAll("single") Traffic traffic) {
    MessageCodec codec = new MessageCodec(traffic.drives(), traffic.watches());
    byte[] line = codec.encode(traffic.frames().get(0));
    for (int length = 0; length < line.length - 1; length++) {
      Received received = new Received(codec);
      received.parser.feed(line, 0, length);
      received.take(new byte[1]);
      assertThat(received.frames).as("first %d bytes", length).isEmpty();
      Received tail = new Received(codec);
      tail.parser.feed(line, length + 1, line.length - length - 1);
      assertThat(tail.frames).as("last %d bytes", line.length - length - 1).isEmpty();
    }
  }

  /** Whole frames of any content: decoded or refused, never anything else. */
  @Property
  void anyPayload(@ForAll("single") Traffic size, @ForAll("source") Random random) {
    MessageCodec codec = new MessageCodec(size.drives(), size.watches());
    byte[] payload = new byte[5 + random.nextInt(500)];
    random.nextBytes(payload);
    payload[0] = (byte) (random.nextBoolean() ? random.nextInt(10) : 0x80 + random.nextInt(6));
    try {
      assertThat(codec.decode(payload, 0, payload.length)).isNotNull();
    } catch (BadFrameException refused) {
      assertThat(refused.type()).isEqualTo(payload[0] & 0xFF);
      assertThat(refused.reason())
          .isIn(NackReason.UNKNOWN_TYPE, NackReason.BAD_LENGTH, NackReason.BAD_FIELD);
    }
  }

  /** Whatever comes down a line: no exception, and each piece that a zero ends is counted once. */
  @Property
  void anyBytes(@ForAll byte[] bytes, @ForAll("source") Random random) {
    int pieces = 0;
    for (int i = 1; i < bytes.length; i++) {
      pieces += bytes[i] == 0 && bytes[i - 1] != 0 ? 1 : 0;
    }
    Received received = new Received(new MessageCodec(8, 8));
    received.takeInChunks(bytes, random);
    assertThat(received.parser.damaged()).isEqualTo(pieces);
    assertThat(received.frames).isEmpty();
  }

  /** A receiver that keeps what it understood. */
  private static final class Received {
    final List<Frame> frames = new ArrayList<>();
    final FrameParser parser;

    Received(MessageCodec codec) {
      parser = new FrameParser((bytes, offset, length) -> keep(codec, bytes, offset, length));
    }

    void take(byte[] bytes) {
      parser.feed(bytes, 0, bytes.length);
    }

    void takeInChunks(byte[] bytes, Random random) {
      int from = 0;
      while (from < bytes.length) {
        int length = Math.min(bytes.length - from, random.nextInt(80));
        parser.feed(bytes, from, length);
        from += length;
      }
    }

    private void keep(MessageCodec codec, byte[] bytes, int offset, int length) {
      try {
        frames.add(codec.decode(bytes, offset, length));
      } catch (BadFrameException refused) {
        throw new AssertionError("a frame that was sent whole", refused);
      }
    }
  }
}
