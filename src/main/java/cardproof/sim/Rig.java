package cardproof.sim;

import cardproof.card.Card;
import cardproof.sim.line.Direction;
import cardproof.sim.line.NoisyLine;
import cardproof.text.Problem;
import cardproof.text.RefusedException;

/** Queue, circuit, fixture and both directions of the line, joined up. */
final class Rig {
  private static final int UNIT = 1;
  private static final int BOARD = 2;
  private static final int LINE = 3;
  private static final int NS_PER_US = 1000;

  final EventQueue queue = new EventQueue();
  final ByteQueue toHost = new ByteQueue();
  final SimulatedFixture fixture;
  private final Carrier toFixture;
  private FrameTrace trace = (nowNs, toFixture, bytes) -> {};

  /**
   * @throws RefusedException when the card has no behaviour that could be simulated
   */
  Rig(Card card, int[] lineOfDrive, int[] lineOfWatch, SimSettings settings) {
    this(
        circuit(card, settings),
        Channels.of(lineOfDrive, lineOfWatch, card.lines().size()),
        settings);
  }

  Rig(Circuit circuit, Channels channels, SimSettings settings) {
    Carrier fromFixture = new Carrier(queue, line(Direction.TO_HOST, settings), toHost::add);
    Identity identity =
        new Identity(
            Draws.key(settings.seed(), BOARD),
            settings.board(),
            settings.slots(),
            settings.samplingNs());
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

  private static Circuit circuit(Card card, SimSettings settings) {
    if (card.behaviour().isEmpty()) {
      throw new RefusedException(
          Problem.at(
              card.at(),
              "card " + card.name() + " says nothing of its behaviour",
              "'behaviour', from which it could be simulated",
              "Write down what its outputs do, or use a fixture with the real card"));
    }
    long unit = Draws.key(Draws.key(settings.seed(), UNIT), settings.unit());
    return new BehaviourCircuit(card, settings.faults(), unit);
  }
}
