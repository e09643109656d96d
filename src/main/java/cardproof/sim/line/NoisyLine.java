package cardproof.sim.line;

import java.util.ArrayList;
import java.util.List;
import java.util.PriorityQueue;
import java.util.SplittableRandom;

/**
 * One direction of the line between host and simulated fixture: takes bytes as they are sent, and
 * has them come out when and as its mishaps will have it. What comes out at one instant keeps the
 * order in which it was sent.
 *
 * <p>Time is virtual, in nanoseconds from when the bench was switched on, and must not go back.
 * Deterministic; not thread safe.
 */
public final class NoisyLine {
  /** A piece that comes to a stretch of the line, or out where there is none left. */
  private record Coming(Piece piece, int stretch, long sent, long order)
      implements Comparable<Coming> {
    @Override
    public int compareTo(Coming other) {
      int byTime = Long.compare(piece.atNs(), other.piece.atNs());
      int bySending = byTime != 0 ? byTime : Long.compare(sent, other.sent);
      return bySending != 0 ? bySending : Long.compare(order, other.order);
    }
  }

  private static final byte[] NOTHING = {};

  private final PriorityQueue<Coming> coming = new PriorityQueue<>();
  private final FrameCutter cutter = new FrameCutter();
  private final List<Stage> stretches = new ArrayList<>();
  private long sent;
  private long order;

  private NoisyLine(List<Mishap> mishaps, long seed) {
    SplittableRandom seeds = new SplittableRandom(seed);
    for (Mishap mishap : mishaps) {
      stretches.add(mishap.on(seeds.split()));
    }
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
    if (stretches.isEmpty()) {
      enter(bytes, nowNs);
    } else {
      cutter.cut(bytes, frame -> enter(frame, nowNs));
    }
  }

  /**
   * When something on the line moves on next, and bytes may come out; {@link Long#MAX_VALUE} when
   * none are under way.
   */
  public long nextNs() {
    return coming.isEmpty() ? Long.MAX_VALUE : coming.peek().piece().atNs();
  }

  /** The next bytes that have come out by now; empty when there are none. */
  public byte[] take(long nowNs) {
    while (nextNs() <= nowNs) {
      Coming first = coming.remove();
      if (first.stretch == stretches.size()) {
        return first.piece.bytes();
      }
      stretches
          .get(first.stretch)
          .pass(
              first.piece,
              piece -> coming.add(new Coming(piece, first.stretch + 1, first.sent, order++)));
    }
    return NOTHING;
  }

  private void enter(byte[] bytes, long nowNs) {
    coming.add(new Coming(new Piece(bytes, nowNs), 0, sent++, order++));
  }
}
