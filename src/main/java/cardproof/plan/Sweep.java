package cardproof.plan;

import cardproof.card.Card;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * One time of a register, tried out: its set-up time, its hold time, or its shortest pulse.
 *
 * <p>It is tried at {@code points} times, each with a word and with its complement. Before each
 * trial three settled vectors put the other word into the register: data set, the control line
 * there and back. Neighbouring lines go opposite ways, so one trial shows half of all lines rising
 * and half falling. The number of trials is fixed, so that what a plan costs is known before; those
 * that the search does not need repeat what was found.
 *
 * @param data what is to be taken
 * @param out where it shows; empty where the card's behaviour says that
 * @param control one line
 * @param level to which the control line goes at the edge that the time is counted from
 * @param range of times that are tried
 * @param atMostUs from here on every trial must work
 * @param points times tried, repeated ones counted
 * @param leadUs from the start of a trial to that edge
 * @param timing of a trial, from its start
 */
public record Sweep(
    SweepKind kind,
    Target data,
    Optional<Target> out,
    Target control,
    boolean level,
    SweepRange range,
    OptionalLong atMostUs,
    int points,
    long leadUs,
    Timing timing) {
  /** Vectors of one trial, those before it included. */
  public static final int VECTORS = 4;

  /** Trials at one time: a word and its complement. */
  public static final int WORDS = 2;

  /** Switchings in the course of a trial, at most. */
  static final int SWITCHES = 2;

  /** How often a limit is tried before the search begins. */
  private static final int TRIES_AT_LIMIT = 3;

  private static final int LEAST_INTERVALS = 8;
  private static final long CHECKERBOARD = 0x5555_5555_5555_5555L;

  /** Trials in all. */
  public long trials() {
    return (long) points * WORDS;
  }

  /** From here on what is not taken is a failure: a sweep must at least work at its far end. */
  public long mustWorkUs() {
    return atMostUs.orElse(range.toUs());
  }

  /** The times tried first, whatever comes: over the whole range, and the limit several times. */
  List<Integer> coarse() {
    List<Integer> indexes = new ArrayList<>();
    int last = range.count() - 1;
    for (int index = last; index > 0; index -= stride(range)) {
      indexes.add(index);
    }
    indexes.add(0);
    for (int i = 0; i < TRIES_AT_LIMIT; i++) {
      indexes.add(range.firstFrom(mustWorkUs()));
    }
    return indexes;
  }

  /** The fewest points that a sweep can do with. */
  public static int leastPoints(SweepRange range) {
    return coarseCount(range) + 1;
  }

  /**
   * As many as should find every edge of so many lines and repeat it: each may want a bisection of
   * its own.
   */
  public static int usualPoints(SweepRange range, int lines) {
    int halvings = Integer.numberOfTrailingZeros(stride(range));
    return coarseCount(range) + lines * (halvings + TRIES_AT_LIMIT);
  }

  private static int coarseCount(SweepRange range) {
    int intervals = (range.count() - 2) / stride(range) + 1;
    return intervals + 1 + TRIES_AT_LIMIT;
  }

  /** A power of two that leaves at least {@value #LEAST_INTERVALS} intervals where it can. */
  private static int stride(SweepRange range) {
    int most = Math.max(1, (range.count() - 1) / LEAST_INTERVALS);
    return Integer.highestOneBit(most);
  }

  long word(Card card, boolean complement) {
    long mask = data.width(card) == Long.SIZE ? -1L : (1L << data.width(card)) - 1;
    return (complement ? ~CHECKERBOARD : CHECKERBOARD) & mask;
  }

  Setting control(boolean after) {
    return control.to(after == level ? 1 : 0);
  }

  Setting data(Card card, boolean complement) {
    return data.to(word(card, complement));
  }

  /** What a trial sets at its very start; for a set-up time data has not come yet. */
  List<Setting> atStart(Card card, boolean complement) {
    return kind == SweepKind.SET_UP ? List.of() : List.of(data(card, complement));
  }

  /** What it sets in its course. */
  List<Later> course(Card card, boolean complement, long timeUs) {
    Later edge = new Later(leadUs, List.of(control(true)));
    return switch (kind) {
      case SET_UP -> inOrder(edge, leadUs - timeUs, data(card, complement));
      case HOLD -> inOrder(edge, leadUs + timeUs, data(card, !complement));
      case PULSE -> inOrder(edge, leadUs + timeUs, control(false));
    };
  }

  private static List<Later> inOrder(Later edge, long atUs, Setting other) {
    if (atUs == edge.atUs()) {
      return List.of(new Later(atUs, List.of(edge.settings().get(0), other)));
    }
    Later second = new Later(atUs, List.of(other));
    return atUs < edge.atUs() ? List.of(second, edge) : List.of(edge, second);
  }

  /** {@code set-up of D before LD goes to 0}. */
  public String words(Card card) {
    String edge = control.name(card) + " goes to " + (level ? 1 : 0);
    return switch (kind) {
      case SET_UP -> "set-up of " + data.name(card) + " before " + edge;
      case HOLD -> "hold of " + data.name(card) + " after " + edge;
      case PULSE ->
          "pulse of "
              + control.name(card)
              + " to "
              + (level ? 1 : 0)
              + " that takes "
              + data.name(card);
    };
  }
}
