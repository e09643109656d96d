package cardproof.link;

import java.util.HashMap;
import java.util.Map;
import java.util.OptionalInt;

/**
 * Messages to bytes and back, for host and fixture alike; the tables of {@code
 * firmware-notes/protocol.md}, sections 5 and 9. Immutable, so any thread may use it.
 *
 * <p>A body from the host must have exactly the length of its table (HELLO: at least); one from the
 * fixture may be longer, since a later minor version may append fields.
 */
public final class MessageCodec {
  private static final int FROM_FIXTURE = 0x80;
  private static final int TYPES = 256;

  private final Coded<?>[] byType = new Coded<?>[TYPES];
  private final Map<Class<?>, Coded<?>> byMessage = new HashMap<>();

  /**
   * A codec for a fixture with these channels, each 0 to 255. With 0 and 0, before the fixture has
   * said what it has, HELLO and HELLO_R are understood, and what holds no sets.
   */
  public MessageCodec(int drives, int watches) {
    this(drives, watches, false);
  }

  /**
   * @param sensed whether results end with rail and current: a fixture with {@link
   *     Capability#SENSE} in a session of version 1.1 or later
   */
  public MessageCodec(int drives, int watches, boolean sensed) {
    if (drives < 0 || drives > 255 || watches < 0 || watches > 255) {
      throw new IllegalArgumentException(drives + " drives, " + watches + " watches");
    }
    add(Types.HELLO, Hello.class, new HelloFormat());
    add(Types.OPEN, Open.class, new OpenFormat(drives, watches));
    add(Types.ARM, Arm.class, new BareFormat<>(Arm::new));
    add(Types.STOP, Stop.class, new BareFormat<>(Stop::new));
    add(Types.RESUME, Resume.class, new NumberFormat<>(Resume::number, Resume::new));
    add(Types.STEP, Step.class, new StepFormat(drives, watches));
    add(Types.BEAT, Beat.class, new NumberFormat<>(Beat::ack, Beat::new));
    add(Types.READ, Read.class, new NumberFormat<>(Read::number, Read::new));
    add(Types.HELLO_REPLY, HelloReply.class, new HelloReplyFormat());
    add(Types.STATUS, Status.class, new StatusFormat(drives, watches));
    add(Types.RESULT, Result.class, new ResultFormat(watches, sensed));
    add(Types.NACK, Nack.class, new NackFormat());
    add(Types.SEQUENCE, Sequence.class, new SequenceFormat(drives, watches));
    add(Types.READ_EDGES, ReadEdges.class, new ReadEdgesFormat());
    add(Types.EDGES, Edges.class, new EdgesFormat(watches));
    add(Types.SUPPLY, Supply.class, new SwitchFormat<>(Supply::on, Supply::new));
    add(
        Types.SUPPLY_REPLY,
        SupplyReply.class,
        new SwitchFormat<>(SupplyReply::on, SupplyReply::new));
    add(Types.READ_SENSE, ReadSense.class, new BareFormat<>(ReadSense::new));
    add(Types.SENSE, Sense.class, new SenseFormat());
  }

  /** The codec for what this fixture said of itself. */
  static MessageCodec of(HelloReply hello) {
    return new MessageCodec(hello.drives(), hello.watches(), hello.senses());
  }

  /** The codec for as long as the channels are not known. */
  public static MessageCodec beforeHello() {
    return new MessageCodec(0, 0);
  }

  /**
   * The bytes on the line: type, session, body, check, in COBS, and the ending zero.
   *
   * @throws IllegalArgumentException when a value does not fit its field, or the frame is longer
   *     than the protocol allows
   */
  public byte[] encode(Frame frame) {
    return coded(frame.message()).encode(frame.session(), frame.message());
  }

  /**
   * The frame in a payload as {@link FrameParser} hands it on: type, session and body.
   *
   * <p>Of a message from the host only type and length are looked at, since a fixture has to test
   * session, state and number before the fields; see {@link #badField}.
   *
   * @throws BadFrameException unknown type, bad length, or a bad field of a message from the
   *     fixture
   */
  public Frame decode(byte[] payload, int offset, int length) throws BadFrameException {
    if (length < FrameLayout.BODY_OFFSET) {
      throw new IllegalArgumentException("a payload of " + length + " bytes");
    }
    Body head = new Body(payload, offset, length);
    int type = head.u8(FrameLayout.TYPE_OFFSET);
    int session = head.i32(FrameLayout.SESSION_OFFSET);
    Coded<?> coded = byType[type];
    if (coded == null) {
      throw new BadFrameException(session, type, NackReason.UNKNOWN_TYPE, 0);
    }
    int bodyOffset = offset + FrameLayout.BODY_OFFSET;
    return coded.decode(session, new Body(payload, bodyOffset, length - FrameLayout.BODY_OFFSET));
  }

  /** Offset, in the body, of the first field that holds a value out of range; else empty. */
  public OptionalInt badField(Message message) {
    int offset = coded(message).badField(message);
    return offset == Format.NO_FIELD ? OptionalInt.empty() : OptionalInt.of(offset);
  }

  /**
   * Offset, in the body, of a field of a whole payload that {@link #decode} takes, in which bits
   * are set that have no meaning here; else empty. The message does not have them any more.
   */
  public OptionalInt unknownBits(byte[] payload, int offset, int length) {
    int type = new Body(payload, offset, length).u8(FrameLayout.TYPE_OFFSET);
    int bodyOffset = offset + FrameLayout.BODY_OFFSET;
    int bad =
        byType[type].format.unknownBits(
            new Body(payload, bodyOffset, length - FrameLayout.BODY_OFFSET));
    return bad == Format.NO_FIELD ? OptionalInt.empty() : OptionalInt.of(bad);
  }

  /** The type byte of a message. */
  public int typeOf(Message message) {
    return coded(message).type;
  }

  /** Bytes before COBS of the longest frame that goes to a fixture with these channels. */
  static int longestFromHost(int drives, int watches) {
    return FrameLayout.SHORTEST
        + Math.max(StepFormat.length(drives, watches), OpenFormat.length(drives, watches));
  }

  /** Bytes of the frame of this message before COBS, the check included. */
  int frameLength(Message message) {
    return FrameLayout.SHORTEST + coded(message).length(message);
  }

  private <M extends Message> void add(int type, Class<M> message, Format<M> format) {
    Coded<M> coded = new Coded<>(type, message, format);
    byType[type] = coded;
    byMessage.put(message, coded);
  }

  private Coded<?> coded(Message message) {
    return byMessage.get(message.getClass());
  }

  /** A format with its type byte and the class it is for, so that casts are checked ones. */
  private record Coded<M extends Message>(int type, Class<M> message, Format<M> format) {
    byte[] encode(int session, Message any) {
      M message = this.message.cast(any);
      int length = format.length(message);
      byte[] buffer = FrameEncoder.buffer(FrameLayout.BODY_OFFSET + length);
      Body head = new Body(buffer, 0, FrameLayout.BODY_OFFSET);
      head.putU8(FrameLayout.TYPE_OFFSET, type);
      head.putI32(FrameLayout.SESSION_OFFSET, session);
      format.put(message, new Body(buffer, FrameLayout.BODY_OFFSET, length));
      return FrameEncoder.encode(buffer);
    }

    Frame decode(int session, Body body) throws BadFrameException {
      boolean fromFixture = type >= FROM_FIXTURE;
      int wanted = format.length(body);
      if (fromFixture ? body.length() < wanted : body.length() != wanted) {
        throw new BadFrameException(session, type, NackReason.BAD_LENGTH, 0);
      }
      M message = format.get(body);
      int bad = fromFixture ? format.badField(message) : Format.NO_FIELD;
      if (bad != Format.NO_FIELD) {
        throw new BadFrameException(session, type, NackReason.BAD_FIELD, bad);
      }
      return new Frame(session, message);
    }

    int length(Message any) {
      return format.length(message.cast(any));
    }

    int badField(Message any) {
      return format.badField(message.cast(any));
    }
  }
}
