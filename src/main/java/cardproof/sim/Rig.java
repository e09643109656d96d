package cardproof.sim;

import cardproof.card.Card;
import cardproof.sim.circuit.CircuitWarnings;
import cardproof.sim.circuit.Draws;
import cardproof.sim.circuit.Occasion;
import cardproof.sim.line.Direction;
import cardproof.sim.line.NoisyLine;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.util.Optional;

/** Queue, circuit, fixture and both directions of the line, joined up. */
final class Rig {
  private static final int UNIT = 1;
  private static final int BOARD = 2;
  private static final int LINE = 3;
  private static final int NS_PER_US = 1000;

  final EventQueue queue = new EventQueue();
  final ByteQueue toHost = new ByteQueue();
  final SimulatedFixture fixture;
  private final Circuit circuit;
  private final Carrier toFixture;
  private FrameTrace trace = (nowNs, toFixture, bytes) -> {};

  /**
   * @throws RefusedException when the card has nothing from which it could be simulated
   */
  Rig(Card card, int[] lineOfDrive, int[] lineOfWatch, SimSettings settings) {
    this(
        circuit(card, lineOfWatch, settings),
        Channels.of(lineOfDrive, lineOfWatch, card.lines().size()),
        settings);
  }

  Rig(Circuit circuit, Channels channels, SimSettings settings) {
    this.circuit = circuit;
    Carrier fromFixture = new Carrier(queue, line(Direction.TO_HOST, settings), toHost::add);
    Identity identity =
        new Identity(
            Draws.key(settings.relaySeed(), BOARD),
            settings.board(),
            settings.slots(),
            settings.samplingNs(),
            settings.protocolMinor(),
            settings.supply());
    fixture =
        new SimulatedFixture(
            queue,
            circuit,
            channels,
            identity,
            bytes -> {
              trace.onLine(queue.nowNs(), false, bytes);
              fromFixture.send(bytes);
            });
    toFixture =
        new Carrier(
            queue,
            line(Direction.TO_FIXTURE, settings),
            bytes -> fixture.receive(bytes, 0, bytes.length));
  }

  void trace(FrameTrace who) {
    trace = who;
  }

  /** Between two samples the card is behind the clock, so it is let catch up with each step. */
  void tap(WaveListener who) {
    circuit.tap(who);
    fixture.onStep(
        number -> {
          circuit.advance(queue.nowNs());
          who.stepStarted(queue.nowNs(), number);
        });
  }

  /** Lets the card catch up with the clock, so that all its edges up to now have been told. */
  void catchUp() {
    circuit.advance(queue.nowNs());
  }

  /** Somebody at the bench switches the supply by hand. */
  void switchByHand(boolean on) {
    fixture.switchByHand(on);
  }

  Optional<CircuitWarnings> warnings() {
    return circuit.warnings();
  }

  boolean fromWiring() {
    return circuit.fromWiring();
  }

  /** The host puts these bytes on the line, now. */
  void fromHost(byte[] bytes) {
    trace.onLine(queue.nowNs(), true, bytes);
    toFixture.send(bytes);
  }

  private static NoisyLine line(Direction direction, SimSettings settings) {
    return NoisyLine.of(
        direction,
        settings.lineDelayUs() * NS_PER_US,
        settings.lineFaults(),
        Draws.key(settings.seed(), LINE));
  }

  /** From what is soldered, where the card's file says that; else from what it is to do. */
  private static Circuit circuit(Card card, int[] lineOfWatch, SimSettings settings) {
    long unit = Draws.key(Draws.key(settings.relaySeed(), UNIT), settings.unit());
    Occasion occasion = new Occasion(unit, settings.session());
    if (card.wiring().isPresent()) {
      return WiredCircuit.of(
          card, settings.faults(), lineOfWatch, settings.supply().tolerancePercent(), occasion);
    }
    if (card.behaviour().isEmpty()) {
      throw new RefusedException(
          Problem.at(
              card.at(),
              "card " + card.name() + " says neither how it is wired nor what it does",
              "'wiring' or 'behaviour', from which it could be simulated",
              "Write down its wiring or what its outputs do, or use a fixture with the real card"));
    }
    return new BehaviourCircuit(card, settings.faults(), occasion);
  }
}
