package cardproof.sim;

import cardproof.link.Arm;
import cardproof.link.BadFrameException;
import cardproof.link.Beat;
import cardproof.link.Capability;
import cardproof.link.Edge;
import cardproof.link.Edges;
import cardproof.link.FixtureState;
import cardproof.link.Frame;
import cardproof.link.FrameParser;
import cardproof.link.Hello;
import cardproof.link.HelloReply;
import cardproof.link.Message;
import cardproof.link.MessageCodec;
import cardproof.link.Nack;
import cardproof.link.NackReason;
import cardproof.link.Open;
import cardproof.link.Protocol;
import cardproof.link.Read;
import cardproof.link.ReadEdges;
import cardproof.link.ReadSense;
import cardproof.link.Result;
import cardproof.link.ResultParts;
import cardproof.link.Resume;
import cardproof.link.Sequence;
import cardproof.link.Status;
import cardproof.link.Step;
import cardproof.link.Stop;
import cardproof.link.Supply;
import cardproof.link.SupplyReply;
import cardproof.link.Switching;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Consumer;
import java.util.function.IntConsumer;

/**
 * The device end of the line: bytes in, bytes out. Tests every frame in the order that {@code
 * firmware-notes/protocol.md}, section 5, gives, answers it, and leaves the rest to {@link
 * Machine}.
 */
final class SimulatedFixture implements Reports {
  private static final int NO_SESSION = 0;

  /** Types from here on are answers; a fixture does not know them. */
  private static final int FROM_FIXTURE = 0x80;

  /** Offset of the flags of a step. */
  private static final int FLAGS = 4;

  private static final int NS_PER_US = 1000;

  /** How messages are written: with rail and current at the end of a result, or without. */
  private record Form(MessageCodec codec, ResultParts parts) {
    static Form of(Channels channels, boolean sensed) {
      return new Form(
          new MessageCodec(channels.drives(), channels.watches(), sensed),
          new ResultParts(channels.watches(), Identity.LONGEST_FRAME, sensed));
    }
  }

  private final EventQueue queue;
  private final Channels channels;
  private final Identity identity;
  private final Consumer<byte[]> line;
  private final MessageCodec codec;
  private final Form plain;
  private final Form sensed;

  /** How results are written in this session. */
  private Form form;

  private int helloMinor;
  private final Machine machine;
  private final int capabilities;
  private final int mostEntries;
  private FrameParser parser;
  private ResetCause resetCause;
  private BitSet allowed = new BitSet();
  private int session = NO_SESSION;
  private int boots;
  private long bootNs;

  /**
   * @param line takes each frame as it is sent
   */
  SimulatedFixture(
      EventQueue queue,
      Circuit circuit,
      Channels channels,
      Identity identity,
      Consumer<byte[]> line) {
    this.queue = queue;
    this.channels = channels;
    this.identity = identity;
    this.line = line;
    this.plain = Form.of(channels, false);
    this.sensed = Form.of(channels, true);
    this.codec = plain.codec;
    this.form = plain;
    this.mostEntries = identity.mostEntries(channels.drives(), channels.watches());
    this.capabilities =
        identity.capabilities(channels.watches())
            | identity.supplyCapabilities(circuit.meter().isPresent());
    this.machine = new Machine(queue, circuit, channels, identity, this);
    reset(ResetCause.POWER_ON);
  }

  /** Starts a new boot: what was under way is lost, all drives are released. */
  void reset(ResetCause why) {
    machine.reset();
    parser = new FrameParser(this::payload, Identity.LONGEST_FRAME);
    resetCause = why;
    session = NO_SESSION;
    boots++;
    bootNs = queue.nowNs();
  }

  Drives drives() {
    return machine.drives();
  }

  /** Who is told of each step as soon as its drives have switched. */
  void onStep(IntConsumer listener) {
    machine.onStep(listener);
  }

  /** Bytes came from the host, now. */
  void receive(byte[] bytes, int offset, int length) {
    parser.feed(bytes, offset, length);
  }

  @Override
  public void result(Result whole) {
    Result now =
        new Result(
            whole.number(),
            machine.slots().next(),
            whole.flags(),
            whole.startUs() - bootNs / NS_PER_US,
            whole.durationUs(),
            whole.skewUs(),
            whole.gapUs(),
            whole.blindUs(),
            whole.before(),
            whole.last(),
            whole.atDwell(),
            whole.unstable(),
            whole.glitched(),
            whole.stirred(),
            whole.movedTotal(),
            whole.firstEntry(),
            whole.moved(),
            form == sensed ? whole.sense() : Optional.empty());
    for (Result part : form.parts.split(now)) {
      send(session, part);
    }
  }

  @Override
  public void status() {
    Slots slots = machine.slots();
    send(
        session,
        new Status(
            machine.state(),
            machine.cause(),
            machine.chattering(),
            identity.boot(boots),
            slots.next(),
            slots.finished(),
            slots.acked(),
            (queue.nowNs() - bootNs) / NS_PER_US,
            parser.whole(),
            parser.damaged(),
            machine.drives().on(),
            machine.sampler().levels(),
            machine.observer().stirred()));
  }

  private void payload(byte[] bytes, int offset, int length) {
    machine.sampler().catchUp();
    try {
      Frame frame = codec.decode(bytes, offset, length);
      handle(frame, codec.unknownBits(bytes, offset, length));
    } catch (BadFrameException bad) {
      boolean known = knows(bad.type());
      refuse(
          bad.session(),
          known ? bad.reason() : NackReason.UNKNOWN_TYPE,
          bad.type(),
          known ? bad.detail() : 0);
    }
  }

  /** Whether this fixture takes frames of this type from a host. */
  private boolean knows(int type) {
    return type < FROM_FIXTURE
        && Capability.neededFor(type)
            .map(needed -> (capabilities & needed.bit()) != 0)
            .orElse(true);
  }

  private void handle(Frame frame, OptionalInt unknownBits) {
    Message message = frame.message();
    if (message instanceof Hello hello) {
      hello(frame.session(), hello.minor());
    } else if (message instanceof Open open) {
      open(frame.session(), open);
    } else if (!knows(codec.typeOf(message))) {
      refuse(frame, NackReason.UNKNOWN_TYPE, 0);
    } else if (session == NO_SESSION || frame.session() != session) {
      refuse(frame, NackReason.WRONG_SESSION, 0);
    } else {
      machine.heard();
      handleInSession(frame, message, unknownBits);
    }
  }

  private void handleInSession(Frame frame, Message message, OptionalInt unknownBits) {
    if (message instanceof Step step) {
      step(frame, step, List.of(), unknownBits);
    } else if (message instanceof Sequence sequence) {
      step(frame, sequence.step(), sequence.entries(), unknownBits);
    } else if (message instanceof ReadEdges wanted) {
      readEdges(wanted);
    } else if (message instanceof Beat beat) {
      beat(frame, beat);
    } else if (message instanceof Read read) {
      read(read);
    } else if (message instanceof Arm) {
      arm(frame);
    } else if (message instanceof Resume resume) {
      machine.resume(resume.number());
      status();
      machine.startNext();
    } else if (message instanceof Stop) {
      machine.stop();
      status();
    } else if (message instanceof Supply supply) {
      supply(frame, supply.on());
    } else if (message instanceof ReadSense) {
      send(session, machine.sense().orElseThrow().now());
    } else {
      throw new IllegalStateException("no answer to " + message);
    }
  }

  /** Names the version that holds: the lower one. Nothing here depends on it later. */
  private void hello(int random, int hostMinor) {
    int minor = Math.min(hostMinor, identity.minor());
    helloMinor = minor;
    send(
        random,
        new HelloReply(
            Protocol.MAJOR,
            minor,
            Identity.FIRMWARE,
            resetCause.ordinal(),
            identity.boot(boots),
            identity.boardId(),
            channels.drives(),
            channels.watches(),
            identity.slots(),
            Identity.LONGEST_FRAME,
            identity.periodNs(),
            identity.blindUs(),
            capabilities,
            identity.name(),
            session,
            minor == 0 ? 0 : mostEntries,
            minor == 0 ? 0 : identity.mostEdges()));
  }

  private void open(int named, Open open) {
    if (named != NO_SESSION && named == session) {
      machine.heard();
      status();
      return;
    }
    Frame frame = new Frame(named, open);
    OptionalInt badField = codec.badField(open);
    if (named == NO_SESSION || open.boot() != identity.boot(boots) || open.follows() != session) {
      refuse(frame, NackReason.WRONG_SESSION, 0);
    } else if (badField.isPresent()) {
      refuse(frame, NackReason.BAD_FIELD, badField.getAsInt());
    } else {
      session = named;
      boolean senses = (capabilities & Capability.SENSE.bit()) != 0;
      form = senses && helloMinor > 0 ? sensed : plain;
      allowed = open.drives();
      machine.open(open);
      status();
    }
  }

  private void supply(Frame frame, boolean on) {
    if (machine.maySwitchSupply()) {
      machine.switchSupply(on);
      send(session, new SupplyReply(machine.supplyOn()));
    } else {
      refuse(frame, NackReason.WRONG_STATE, 0);
    }
  }

  /** A hand that has the drives released and then works the supply's own switch. */
  void switchByHand(boolean on) {
    machine.switchSupply(on);
  }

  private void arm(Frame frame) {
    if (machine.isOpen()) {
      machine.arm();
      status();
      machine.startNext();
    } else {
      refuse(frame, NackReason.WRONG_STATE, 0);
    }
  }

  /**
   * @param later what the drives become in the course of a sequence
   * @param unknownBits offset of flags without a meaning
   */
  private void step(Frame frame, Step step, List<Switching> later, OptionalInt unknownBits) {
    Slots slots = machine.slots();
    int order = Integer.compareUnsigned(step.number(), slots.next());
    OptionalInt badField = unknownBits.isPresent() ? unknownBits : badField(frame.message(), step);
    if (machine.state() == FixtureState.SAFE || machine.state() == FixtureState.TRIPPED) {
      refuse(frame, NackReason.WRONG_STATE, 0);
    } else if (order < 0) {
      status();
    } else if (order > 0) {
      refuse(frame, NackReason.OUT_OF_ORDER, 0);
    } else if (!slots.hasRoom() || !mayJoin(step, later)) {
      refuse(frame, NackReason.NO_SLOT_FREE, 0);
    } else if (enablesMoreThanAllowed(step, later)) {
      refuse(frame, NackReason.DRIVE_NOT_ALLOWED, 0);
    } else if (badField.isPresent()) {
      refuse(frame, NackReason.BAD_FIELD, badField.getAsInt());
    } else {
      machine.queue(step, later);
    }
  }

  /** A sequence, and a step with capture, are alone; edges are kept of one step only. */
  private boolean mayJoin(Step step, List<Switching> later) {
    Slots slots = machine.slots();
    boolean alone = step.capture() || !later.isEmpty();
    return !slots.isTakenAlone()
        && !(alone && slots.isBusy())
        && !(step.capture() && !machine.edges().isFree());
  }

  private OptionalInt badField(Message message, Step step) {
    boolean capturing = (capabilities & Capability.EDGE_CAPTURE.bit()) != 0;
    OptionalInt bad = codec.badField(message);
    if (step.capture() && !capturing) {
      return OptionalInt.of(FLAGS);
    }
    return bad;
  }

  private boolean enablesMoreThanAllowed(Step step, List<Switching> later) {
    return enablesMoreThanAllowed(step.enable())
        || later.stream().anyMatch(entry -> enablesMoreThanAllowed(entry.enable()));
  }

  /** A bit beyond the last drive is a bad field, not a drive. */
  private boolean enablesMoreThanAllowed(BitSet enable) {
    for (int drive = enable.nextSetBit(0);
        drive >= 0 && drive < channels.drives();
        drive = enable.nextSetBit(drive + 1)) {
      if (!allowed.get(drive)) {
        return true;
      }
    }
    return false;
  }

  private void beat(Frame frame, Beat beat) {
    if (Integer.compareUnsigned(beat.ack(), machine.slots().finished()) > 0) {
      refuse(frame, NackReason.BAD_FIELD, 0);
    } else {
      machine.acknowledge(beat.ack());
      status();
    }
  }

  private void read(Read read) {
    Optional<Result> kept = machine.slots().result(read.number());
    if (kept.isPresent()) {
      result(kept.get());
    } else {
      status();
    }
  }

  private void readEdges(ReadEdges wanted) {
    EdgeLog log = machine.edges();
    if (!log.has(wanted.number())) {
      status();
      return;
    }
    List<Edge> kept = log.edges();
    int from = Math.min(wanted.first(), kept.size());
    int to = Math.min(kept.size(), from + Edges.mostInFrame(Identity.LONGEST_FRAME));
    send(
        session,
        new Edges(wanted.number(), kept.size(), log.unkept(), from, kept.subList(from, to)));
  }

  private void refuse(Frame frame, NackReason reason, int detail) {
    refuse(frame.session(), reason, codec.typeOf(frame.message()), detail);
  }

  private void refuse(int ofSession, NackReason reason, int type, int detail) {
    send(ofSession, new Nack(reason, type, machine.slots().next(), detail));
  }

  private void send(int inSession, Message message) {
    line.accept(form.codec.encode(new Frame(inSession, message)));
  }
}
