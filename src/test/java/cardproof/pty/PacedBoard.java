package cardproof.pty;

import cardproof.card.Card;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.HookUp;
import cardproof.link.BadFrameException;
import cardproof.link.Frame;
import cardproof.link.FrameParser;
import cardproof.link.HelloReply;
import cardproof.link.Message;
import cardproof.link.MessageCodec;
import cardproof.link.Result;
import cardproof.sim.PacedFixture;
import cardproof.sim.ResetCause;
import cardproof.sim.SimSettings;
import java.io.ByteArrayOutputStream;
import java.util.function.UnaryOperator;

/**
 * The simulated fixture with its card as a {@link Device}, joined up as the program itself would
 * join it. What it says of itself may be changed on the way out, so that it can be a board of
 * another kind or another version.
 */
public final class PacedBoard implements Device {
  private static final byte[] NOTHING = {};

  private final PacedFixture fixture;
  private final MessageCodec codec;
  private final UnaryOperator<HelloReply> introduction;
  private final int resetAfter;
  private int results;
  private boolean wasReset;
  private byte[] outgoing = NOTHING;
  private int offset;

  /**
   * @param introduction from what the simulated fixture says of itself to what the host is told
   * @param resetAfter results after which its supply dips, once; it starts anew at once
   */
  public PacedBoard(
      Card card,
      SimSettings settings,
      UnaryOperator<HelloReply> introduction,
      int resetAfter,
      BoardEvents events) {
    int drives = HookUp.drivesNeeded(card);
    int watches = HookUp.watchesNeeded(card);
    HookUp hookUp = HookUp.of(card, FixtureProfile.simulatedBench(drives, watches));
    this.fixture = new PacedFixture(card, hookUp.lineOfDrive(), hookUp.lineOfWatch(), settings, 0);
    this.codec = new MessageCodec(drives, watches);
    this.introduction = introduction;
    this.resetAfter = resetAfter;
    fixture.watchDrives((nowNs, on) -> events.drives(on));
    FrameParser fromHost = new FrameParser((bytes, at, length) -> heard(bytes, at, length, events));
    FrameParser toHost = new FrameParser((bytes, at, length) -> said(bytes, at, length, events));
    fixture.trace((nowNs, in, bytes) -> (in ? fromHost : toHost).feed(bytes, 0, bytes.length));
  }

  @Override
  public void receive(byte[] bytes, int count, long nowNs) {
    fixture.receive(bytes, count, nowNs);
    collect(nowNs);
  }

  @Override
  public long nextDueNs() {
    return offset < outgoing.length ? 0 : fixture.nextDueNs();
  }

  @Override
  public int produce(byte[] into, long nowNs) {
    collect(nowNs);
    int count = Math.min(into.length, outgoing.length - offset);
    System.arraycopy(outgoing, offset, into, 0, count);
    offset += count;
    return count;
  }

  /** All that the fixture has to say by now, which is whole frames. */
  private byte[] everything(long nowNs) {
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    byte[] piece = new byte[4096];
    int count = fixture.produce(piece, nowNs);
    while (count > 0) {
      all.write(piece, 0, count);
      count = fixture.produce(piece, nowNs);
    }
    return all.toByteArray();
  }

  private void collect(long nowNs) {
    byte[] more = everything(nowNs);
    if (results >= resetAfter && !wasReset) {
      wasReset = true;
      fixture.resetFixture(ResetCause.BROWN_OUT, nowNs);
    }
    if (more.length == 0) {
      return;
    }
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    all.write(outgoing, offset, outgoing.length - offset);
    int start = 0;
    for (int i = 0; i < more.length; i++) {
      if (more[i] == 0) { // the fixture puts out whole frames only, each ended by a zero
        all.writeBytes(introduced(more, start, i + 1 - start));
        start = i + 1;
      }
    }
    all.write(more, start, more.length - start); // what a bad line has left without its zero
    outgoing = all.toByteArray();
    offset = 0;
  }

  private byte[] introduced(byte[] bytes, int from, int length) {
    ByteArrayOutputStream frames = new ByteArrayOutputStream();
    FrameParser parser =
        new FrameParser(
            (payload, at, payloadLength) -> {
              Frame frame = decode(payload, at, payloadLength);
              if (frame.message() instanceof HelloReply reply) {
                frames.writeBytes(
                    codec.encode(new Frame(frame.session(), introduction.apply(reply))));
              }
            });
    parser.feed(bytes, from, length);
    if (frames.size() > 0) {
      return frames.toByteArray();
    }
    byte[] same = new byte[length];
    System.arraycopy(bytes, from, same, 0, length);
    return same;
  }

  private void heard(byte[] bytes, int at, int length, BoardEvents events) {
    events.heard(decode(bytes, at, length).message());
  }

  private void said(byte[] bytes, int at, int length, BoardEvents events) {
    Message message = decode(bytes, at, length).message();
    results += message instanceof Result ? 1 : 0;
    events.said(message);
  }

  /** Every frame of these tests is one that the protocol knows: anything else fails the device. */
  private Frame decode(byte[] bytes, int at, int length) {
    try {
      return codec.decode(bytes, at, length);
    } catch (BadFrameException bad) {
      throw new IllegalStateException(bad);
    }
  }
}
