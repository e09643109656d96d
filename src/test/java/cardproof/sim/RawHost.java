package cardproof.sim;

import cardproof.link.Arm;
import cardproof.link.BadFrameException;
import cardproof.link.Beat;
import cardproof.link.Frame;
import cardproof.link.FrameParser;
import cardproof.link.Hello;
import cardproof.link.HelloReply;
import cardproof.link.Message;
import cardproof.link.MessageCodec;
import cardproof.link.Open;
import cardproof.link.Result;
import cardproof.link.Status;
import cardproof.link.Wire;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;

/** A host of the plainest kind: says what it is told to say, and keeps all that comes. */
final class RawHost {
  static final int SESSION = 0x5A17_C0DE;

  final Wire wire;
  private final ArrayDeque<Frame> came = new ArrayDeque<>();
  private final byte[] room = new byte[4096];
  private final FrameParser parser = new FrameParser(this::payload);
  private MessageCodec codec = MessageCodec.beforeHello();
  private HelloReply board;
  private int session;

  RawHost(Wire wire) {
    this.wire = wire;
  }

  /** HELLO, OPEN with the usual rules and all channels, ARM. */
  static RawHost armed(Wire wire) {
    RawHost host = new RawHost(wire);
    host.hello();
    host.open(SESSION);
    host.ask(new Arm(), Status.class);
    return host;
  }

  /** As a host of version 1.0. */
  HelloReply hello() {
    return hello(0);
  }

  HelloReply hello(int minor) {
    sendAs(0x1122_3344, new Hello(1, minor));
    Frame reply = next(1_000_000);
    board = (HelloReply) reply.message();
    codec = new MessageCodec(board.drives(), board.watches(), board.senses());
    return board;
  }

  Status open(int number) {
    return open(number, usual());
  }

  Status open(int number, Open open) {
    session = number;
    return ask(open, Status.class);
  }

  /** 1 s of silence, 8 moves, 5000 changes, 2 ms of rest, 10 s of hold. */
  Open usual() {
    return rules(1000, 8, 5000, 10_000);
  }

  /** The usual rules, said to follow this session. */
  Open usualAfter(int follows) {
    Open now = usual();
    return new Open(
        now.boot(),
        follows,
        now.silenceMs(),
        now.chatterMoves(),
        now.chatterChanges(),
        now.moveRestUs(),
        now.holdMs(),
        now.drives(),
        now.watches());
  }

  /** A frame that is there already. */
  Optional<Frame> pollNow() {
    return Optional.ofNullable(poll(0));
  }

  Open rules(int silenceMs, int moves, int changes, long holdMs) {
    HelloReply now = board;
    return new Open(
        now.boot(),
        now.session(),
        silenceMs,
        moves,
        changes,
        2000,
        holdMs,
        all(now.drives()),
        all(now.watches()));
  }

  HelloReply board() {
    return board;
  }

  void inSession(int number) {
    session = number;
  }

  void send(Message message) {
    sendAs(session, message);
  }

  void sendAs(int asSession, Message message) {
    wire.write(codec.encode(new Frame(asSession, message)));
  }

  byte[] encode(Message message) {
    return codec.encode(new Frame(session, message));
  }

  /** Sends, and takes the first frame that comes, which must be of this kind. */
  <M extends Message> M ask(Message message, Class<M> kind) {
    send(message);
    return expect(kind, 1_000_000);
  }

  /** The next frame, within so many microseconds, which must be of this kind. */
  <M extends Message> M expect(Class<M> kind, long withinUs) {
    return kind.cast(next(withinUs).message());
  }

  /** The next frame, within so many microseconds. */
  Frame next(long withinUs) {
    Frame frame = poll(withinUs);
    if (frame == null) {
      throw new AssertionError("nothing came within " + withinUs + " us");
    }
    return frame;
  }

  /** Lets so much time pass; all that came. */
  List<Message> rest(long forUs) {
    long endNs = wire.nowNs() + forUs * 1000;
    List<Message> all = new ArrayList<>();
    Frame frame = poll(forUs);
    while (frame != null) {
      all.add(frame.message());
      frame = poll(Math.max(0, (endNs - wire.nowNs()) / 1000));
    }
    return all;
  }

  /** Sends a step or sequence and waits for its result, saying BEAT meanwhile. */
  Result run(Message step) {
    send(step);
    BeatPatience patience = new BeatPatience();
    while (true) {
      Frame frame = poll(250_000);
      if (frame != null && frame.message() instanceof Result result) {
        return result;
      }
      if (frame == null) {
        patience.beat();
      }
    }
  }

  private final class BeatPatience {
    private int left = 100;

    void beat() {
      if (left-- == 0) {
        throw new AssertionError("a step without a result");
      }
      send(new Beat(0));
    }
  }

  private Frame poll(long withinUs) {
    long deadlineNs = wire.nowNs() + withinUs * 1000;
    while (came.isEmpty()) {
      int count = wire.read(room, deadlineNs);
      if (count == 0) {
        return null;
      }
      parser.feed(room, 0, count);
    }
    return came.remove();
  }

  private void payload(byte[] bytes, int offset, int length) {
    try {
      came.add(codec.decode(bytes, offset, length));
    } catch (BadFrameException e) {
      throw new AssertionError("the fixture sent a frame that cannot be read", e);
    }
  }

  static BitSet all(int channels) {
    BitSet set = new BitSet();
    set.set(0, channels);
    return set;
  }
}
