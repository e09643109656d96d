package cardproof.sim.line;

import java.util.ArrayList;
import java.util.List;
import java.util.PriorityQueue;
import java.util.SplittableRandom;
import java.util.function.Consumer;

/**
 * One direction of the line between host and simulated fixture: takes bytes as they are sent, and
 * has them come out when and as its mishaps will have it. What comes out at one instant keeps the
 * order in which it was sent.
 *
 * <p>Time is virtual, in nanoseconds from when the bench was switched on, and must not go back.
 * Deterministic; not thread safe.
 */
public final class NoisyLine {
  private record Coming(Piece piece, long order) implements Comparable<Coming> {
    @Override
    public int compareTo(Coming other) {
      int byTime = Long.compare(piece.atNs(), other.piece.atNs());
      return byTime != 0 ? byTime : Long.compare(order, other.order);
    }
  }

  private static final byte[] NOTHING = {};

  private final PriorityQueue<Coming> coming = new PriorityQueue<>();
  private final FrameCutter cutter = new FrameCutter();
  private final boolean clean;
  private final Consumer<Piece> entry;
  private long order;

  private NoisyLine(List<Mishap> mishaps, long seed) {
    SplittableRandom seeds = new SplittableRandom(seed);
    List<Stage> stages = new ArrayList<>();
    for (Mishap mishap : mishaps) {
      stages.add(mishap.on(seeds.split()));
    }
    Consumer<Piece> through = piece -> coming.add(new Coming(piece, order++));
    for (int i = stages.size() - 1; i >= 0; i--) {
      Stage stage = stages.get(i);
      Consumer<Piece> next = through;
      through = piece -> stage.pass(piece, next);
    }
    clean = stages.isEmpty();
    entry = through;
  }

  /**
   * The line that these faults give in one direction.
   *
   * @param delayNs that all bytes take, before anything else befalls them
   * @param faults in the order of the stretches of line that have them
   */
  public static NoisyLine of(Direction direction, long delayNs, List<LineFault> faults, long seed) {
    List<Mishap> mishaps = new ArrayList<>();
    for (LineFault fault : faults) {
      mishaps.addAll(fault.on(direction));
    }
    if (delayNs > 0) {
      mishaps.add(0, new Delay(delayNs, delayNs));
    }
    return new NoisyLine(mishaps, seed ^ direction.ordinal());
  }

  /** Takes bytes that are sent now; they are not changed and must not be changed any more. */
  public void send(byte[] bytes, long nowNs) {
    if (bytes.length == 0) {
      return;
    }
    if (clean) {
      entry.accept(new Piece(bytes, nowNs));
    } else {
      cutter.cut(bytes, frame -> entry.accept(new Piece(frame, nowNs)));
    }
  }

  /** When the next bytes come out; {@link Long#MAX_VALUE} when none are under way. */
  public long nextNs() {
    return coming.isEmpty() ? Long.MAX_VALUE : coming.peek().piece().atNs();
  }

  /** The next bytes that have come out by now; empty when there are none. */
  public byte[] take(long nowNs) {
    return nextNs() <= nowNs ? coming.poll().piece().bytes() : NOTHING;
  }
}
