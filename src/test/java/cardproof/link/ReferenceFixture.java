package cardproof.link;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/**
 * A fixture written straight down the protocol's page, sections 2 to 7, for the host to be tried
 * on. Plain on purpose: one field for each thing the page names. Its card answers as it is told.
 */
final class ReferenceFixture implements VirtualWire.Device {
  static final int DRIVES = 8;
  static final int WATCHES = 8;
  private static final long NEVER = Long.MAX_VALUE;

  /** What a card does with a step. */
  record Answer(long durationUs, boolean missed, boolean trips, boolean hangs, int moved) {
    static Answer after(long durationUs) {
      return new Answer(durationUs, false, false, false, 2);
    }
  }

  /** A step that was run. */
  record Run(int boot, int session, int number, BitSet level) {}

  private enum SlotState {
    EMPTY,
    QUEUED,
    RUNNING,
    DONE
  }

  final List<Run> runs = new ArrayList<>();
  private final Strand line;
  private final Function<Step, Answer> card;
  private final MessageCodec codec = new MessageCodec(DRIVES, WATCHES);
  private final FrameParser parser = new FrameParser(this::payload, Protocol.LONGEST_FRAME);
  private final ResultParts parts;
  private final int slots;
  private final SlotState[] states;
  private final Step[] steps;
  private final Result[] results;

  int boot = 0x100;
  int major = Protocol.MAJOR;
  boolean mute;
  int longestTold;
  private FixtureState state = FixtureState.SAFE;
  private DropCause cause = DropCause.NEVER_LIVE;
  private int session;
  private int next;
  private int finished;
  private int acked;
  private long silenceNs;
  private long heardNs;
  private long endNs = NEVER;
  private Answer answer = Answer.after(0);
  private BitSet on = new BitSet();
  private long nowNs;

  ReferenceFixture(Strand line, int slots, int longestFrame, Function<Step, Answer> card) {
    this.line = line;
    this.slots = slots;
    this.longestTold = longestFrame;
    this.card = card;
    this.parts = new ResultParts(WATCHES, longestFrame);
    this.states = new SlotState[slots];
    this.steps = new Step[slots];
    this.results = new Result[slots];
    empty();
  }

  FixtureState state() {
    return state;
  }

  int session() {
    return session;
  }

  BitSet on() {
    return on;
  }

  /** Everything is forgotten, and the drives are down. */
  void reset() {
    boot++;
    session = 0;
    empty();
    state = FixtureState.SAFE;
    cause = DropCause.NEVER_LIVE;
    endNs = NEVER;
    on = new BitSet();
  }

  @Override
  public void receive(byte[] bytes, long atNs) {
    nowNs = atNs;
    parser.feed(bytes, 0, bytes.length);
    startNext();
  }

  @Override
  public long nextNs() {
    boolean counts = state != FixtureState.SAFE && state != FixtureState.TRIPPED;
    return Math.min(endNs, counts ? heardNs + silenceNs : NEVER);
  }

  @Override
  public void tick(long atNs) {
    nowNs = atNs;
    if (endNs <= nowNs) {
      endStep();
    } else if (nextNs() <= nowNs) {
      drop(FixtureState.SAFE, DropCause.SILENCE, ResultFlag.STOPPED);
    }
    startNext();
  }

  private void payload(byte[] bytes, int offset, int length) {
    if (mute) {
      return;
    }
    try {
      Frame frame = codec.decode(bytes, offset, length);
      take(frame.session(), frame.message());
    } catch (BadFrameException bad) {
      send(bad.session(), bad.nack(next));
    }
  }

  private void take(int frameSession, Message message) {
    if (message instanceof Hello) {
      send(frameSession, hello());
    } else if (message instanceof Open open) {
      open(frameSession, open);
    } else if (frameSession != session || session == 0) {
      refuse(frameSession, NackReason.WRONG_SESSION, message);
    } else {
      heardNs = nowNs;
      inSession(message);
    }
  }

  private void inSession(Message message) {
    if (message instanceof Arm) {
      arm(message);
    } else if (message instanceof Stop) {
      stop();
    } else if (message instanceof Resume resume) {
      if (state == FixtureState.HELD && finished - 1 == resume.number()) {
        state = FixtureState.READY;
      }
      status();
    } else if (message instanceof Step step) {
      step(step);
    } else if (message instanceof Beat beat) {
      beat(beat);
    } else if (message instanceof Read read) {
      Optional<Result> kept = kept(read.number());
      kept.ifPresentOrElse(this::sendResult, this::status);
    }
  }

  private void open(int number, Open open) {
    if (number == session) {
      status();
    } else if (open.boot() != boot || open.follows() != session) {
      refuse(number, NackReason.WRONG_SESSION, open);
    } else if (codec.badField(open).isPresent()) {
      send(
          number,
          new Nack(NackReason.BAD_FIELD, codec.typeOf(open), 0, codec.badField(open).getAsInt()));
    } else {
      session = number;
      silenceNs = open.silenceMs() * 1_000_000L;
      heardNs = nowNs;
      empty();
      on = new BitSet();
      endNs = NEVER;
      state = FixtureState.OPENED;
      cause = DropCause.OPEN;
      status();
    }
  }

  private void arm(Message message) {
    if (state == FixtureState.SAFE || state == FixtureState.TRIPPED) {
      refuse(session, NackReason.WRONG_STATE, message);
      return;
    }
    if (state == FixtureState.OPENED) {
      state = FixtureState.READY;
    }
    status();
  }

  private void stop() {
    if (state == FixtureState.SAFE || state == FixtureState.TRIPPED) {
      status();
    } else {
      drop(FixtureState.SAFE, DropCause.STOP, ResultFlag.STOPPED);
    }
  }

  private void step(Step step) {
    if (state == FixtureState.SAFE || state == FixtureState.TRIPPED) {
      refuse(session, NackReason.WRONG_STATE, step);
    } else if (step.number() < next) {
      status();
    } else if (step.number() > next) {
      refuse(session, NackReason.OUT_OF_ORDER, step);
    } else if (states[next % slots] != SlotState.EMPTY) {
      refuse(session, NackReason.NO_SLOT_FREE, step);
    } else if (codec.badField(step).isPresent()) {
      int offset = codec.badField(step).getAsInt();
      send(session, new Nack(NackReason.BAD_FIELD, codec.typeOf(step), next, offset));
    } else {
      steps[next % slots] = step;
      states[next % slots] = SlotState.QUEUED;
      next++;
    }
  }

  private void beat(Beat beat) {
    if (beat.ack() > finished) {
      refuse(session, NackReason.BAD_FIELD, beat);
      return;
    }
    while (acked < beat.ack()) {
      states[acked % slots] = SlotState.EMPTY;
      acked++;
    }
    status();
  }

  private void startNext() {
    int slot = finished % slots;
    if (state == FixtureState.READY && states[slot] == SlotState.QUEUED) {
      Step step = steps[slot];
      states[slot] = SlotState.RUNNING;
      state = FixtureState.RUN;
      runs.add(new Run(boot, session, step.number(), step.level()));
      on = step.level();
      answer = card.apply(step);
      endNs = answer.hangs() ? NEVER : nowNs + answer.durationUs() * 1000;
    }
  }

  private void endStep() {
    endNs = NEVER;
    if (answer.trips()) {
      drop(FixtureState.TRIPPED, DropCause.CHATTER, ResultFlag.TRIPPED);
      return;
    }
    Step step = steps[finished % slots];
    boolean held = answer.missed() && step.gate();
    state = held ? FixtureState.HELD : FixtureState.READY;
    finish(
        held
            ? ResultFlag.QUIET.bit() | ResultFlag.MISSED.bit()
            : ResultFlag.QUIET.bit() | ResultFlag.MATCHED.bit());
    if (held) {
      status();
    }
  }

  private void drop(FixtureState into, DropCause why, ResultFlag flag) {
    boolean running = state == FixtureState.RUN;
    state = into;
    cause = why;
    on = new BitSet();
    endNs = NEVER;
    if (running) {
      finish(flag.bit());
    }
    status();
  }

  private void finish(int flags) {
    int slot = finished % slots;
    Step step = steps[slot];
    BitSet none = new BitSet();
    List<MovedWatch> moved = new ArrayList<>();
    for (int i = 0; i < answer.moved(); i++) {
      moved.add(new MovedWatch(i, 10, 20, 1, 1));
    }
    results[slot] =
        new Result(
            step.number(),
            0,
            flags,
            nowNs / 1000,
            answer.durationUs(),
            1,
            10,
            30,
            none,
            step.level(),
            none,
            none,
            none,
            none,
            moved.size(),
            0,
            moved);
    states[slot] = SlotState.DONE;
    finished++;
    sendResult(results[slot]);
  }

  private Optional<Result> kept(int number) {
    boolean known = number >= acked && number < finished;
    return known ? Optional.of(results[number % slots]) : Optional.empty();
  }

  private void sendResult(Result kept) {
    for (Result part : parts.split(kept)) {
      send(session, withNext(part));
    }
  }

  private Result withNext(Result r) {
    return new Result(
        r.number(),
        next,
        r.flags(),
        r.startUs(),
        r.durationUs(),
        r.skewUs(),
        r.gapUs(),
        r.blindUs(),
        r.before(),
        r.last(),
        r.atDwell(),
        r.unstable(),
        r.glitched(),
        r.stirred(),
        r.movedTotal(),
        r.firstEntry(),
        r.moved());
  }

  private void status() {
    send(
        session,
        new Status(
            state,
            cause,
            Protocol.NO_WATCH,
            boot,
            next,
            finished,
            acked,
            nowNs / 1000,
            parser.whole(),
            parser.damaged(),
            on,
            new BitSet(),
            new BitSet()));
  }

  private HelloReply hello() {
    return new HelloReply(
        major,
        0,
        "1.0.0",
        1,
        boot,
        0,
        DRIVES,
        WATCHES,
        slots,
        longestTold,
        3000,
        30,
        0,
        "reference",
        session);
  }

  private void refuse(int frameSession, NackReason reason, Message message) {
    send(frameSession, new Nack(reason, codec.typeOf(message), next, 0));
  }

  private void send(int frameSession, Message message) {
    line.write(codec.encode(new Frame(frameSession, message)), nowNs);
  }

  private void empty() {
    Arrays.fill(states, SlotState.EMPTY);
    next = 0;
    finished = 0;
    acked = 0;
  }
}
