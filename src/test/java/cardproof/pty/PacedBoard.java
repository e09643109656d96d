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
import java.util.BitSet;
import java.util.function.Function;
import java.util.function.UnaryOperator;

/**
 * The simulated fixture with its card as a {@link Device}, joined up as the program itself would
 * join it. What it says of itself may be changed on the way out, so that it can be a board of
 * another kind or another version.
 */
public final class PacedBoard implements Device {
  /** Its reset button. */
  public static final char RESET = 'r';

  /** Power is gone for a moment, from the board and from the card. */
  public static final char POWER_CUT = 'p';

  /** From now on it reads nothing of what is sent. */
  public static final char STALL = 's';

  private static final byte[] NOTHING = {};

  private final Function<Long, PacedFixture> maker;
  private final BoardEvents events;
  private final double rate;
  private PacedFixture fixture;
  private int boots;
  private boolean stalled;
  private final MessageCodec codec;
  private final UnaryOperator<HelloReply> introduction;
  private final int resetAfter;
  private int results;
  private boolean wasReset;
  private byte[] outgoing = NOTHING;
  private int offset;

  /** With a clock that is right. */
  public PacedBoard(
      Card card,
      SimSettings settings,
      UnaryOperator<HelloReply> introduction,
      int resetAfter,
      BoardEvents events) {
    this(card, settings, introduction, resetAfter, 1, events);
  }

  /**
   * @param introduction from what the simulated fixture says of itself to what the host is told
   * @param rate how fast its clock runs: 1.02 gains 2 %
   * @param resetAfter results after which its supply dips, once; it starts anew at once
   */
  public PacedBoard(
      Card card,
      SimSettings settings,
      UnaryOperator<HelloReply> introduction,
      int resetAfter,
      double rate,
      BoardEvents events) {
    int drives = HookUp.drivesNeeded(card);
    int watches = HookUp.watchesNeeded(card);
    HookUp hookUp = HookUp.of(card, FixtureProfile.simulatedBench(drives, watches));
    this.maker =
        startNs ->
            new PacedFixture(card, hookUp.lineOfDrive(), hookUp.lineOfWatch(), settings, startNs);
    this.events = events;
    this.rate = rate;
    this.codec = new MessageCodec(drives, watches);
    this.introduction = introduction;
    this.resetAfter = resetAfter;
    power(0);
  }

  /** Fixture and card as they come; a boot that was never there before. */
  private void power(long nowNs) {
    fixture = maker.apply(own(nowNs));
    for (int i = 0; i < boots; i++) {
      fixture.resetFixture(ResetCause.POWER_ON, own(nowNs));
    }
    fixture.watchDrives((atNs, on) -> events.drives(on));
    FrameParser fromHost = new FrameParser((bytes, at, length) -> heard(bytes, at, length));
    FrameParser toHost = new FrameParser((bytes, at, length) -> said(bytes, at, length));
    fixture.trace((atNs, in, bytes) -> (in ? fromHost : toHost).feed(bytes, 0, bytes.length));
  }

  /** Its own clock. */
  private long own(long nowNs) {
    return (long) (nowNs * rate);
  }

  @Override
  public void command(char what, long nowNs) {
    switch (what) {
      case RESET -> {
        boots++;
        fixture.resetFixture(ResetCause.BROWN_OUT, own(nowNs));
      }
      case POWER_CUT -> {
        boots++;
        outgoing = NOTHING;
        offset = 0;
        power(nowNs);
        events.drives(new BitSet());
      }
      case STALL -> stalled = true;
      default -> throw new IllegalArgumentException("command " + what);
    }
  }

  @Override
  public int appetite(long nowNs) {
    return stalled ? 0 : 4096;
  }

  @Override
  public void receive(byte[] bytes, int count, long nowNs) {
    fixture.receive(bytes, count, own(nowNs));
    collect(nowNs);
  }

  @Override
  public long nextDueNs() {
    long dueNs = offset < outgoing.length ? 0 : fixture.nextDueNs();
    return dueNs == NEVER ? NEVER : (long) Math.ceil(dueNs / rate);
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
    int count = fixture.produce(piece, own(nowNs));
    while (count > 0) {
      all.write(piece, 0, count);
      count = fixture.produce(piece, own(nowNs));
    }
    return all.toByteArray();
  }

  private void collect(long nowNs) {
    byte[] more = everything(nowNs);
    if (results >= resetAfter && !wasReset) {
      wasReset = true;
      boots++;
      fixture.resetFixture(ResetCause.BROWN_OUT, own(nowNs));
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

  private void heard(byte[] bytes, int at, int length) {
    events.heard(decode(bytes, at, length).message());
  }

  private void said(byte[] bytes, int at, int length) {
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
