package cardproof.card.wiring.review;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;

/**
 * Lets the relays run, sixty-four patterns at once: with nothing driven, each line alone, all of
 * them, and every two where that is cheap; after each pattern nothing again. Not thread safe.
 */
final class RestSearch {
  private static final int LANES = Long.SIZE;
  private static final int MOST_ROUNDS = 20_000;

  /** Links gone through for all pairs together, at about a hundred million a second. */
  private static final long MOST_WORK = 40_000_000;

  private final Circuit circuit;
  private final List<Integer> driven;
  private final Lanes lanes;
  private long work;

  RestSearch(Circuit circuit, List<EdgeLine> lines) {
    this.circuit = circuit;
    this.lanes = new Lanes(circuit);
    this.driven = new ArrayList<>();
    for (int line = 0; line < lines.size(); line++) {
      if (lines.get(line).driven()) {
        driven.add(line);
      }
    }
  }

  /** The first pattern with which they do not rest. */
  Optional<Unrest> search() {
    BitSet nothing = new BitSet();
    BitSet released = new BitSet();
    Optional<Unrest> first = run(List.of(nothing), released);
    if (first.isPresent()) {
      return first;
    }
    BitSet atRest = lane(0, lanes.operated());
    List<BitSet> patterns = new ArrayList<>();
    for (int line : driven) {
      patterns.add(pattern(line));
    }
    patterns.add(pattern(driven.stream().mapToInt(Integer::intValue).toArray()));
    Optional<Unrest> found = inGroups(patterns, atRest, Long.MAX_VALUE);
    return found.isPresent() ? found : inGroups(pairs(), atRest, MOST_WORK);
  }

  private List<BitSet> pairs() {
    List<BitSet> pairs = new ArrayList<>();
    for (int one = 0; one < driven.size() && pairs.size() < MOST_ROUNDS; one++) {
      for (int other = one + 1; other < driven.size(); other++) {
        pairs.add(pattern(driven.get(one), driven.get(other)));
      }
    }
    return pairs;
  }

  private static BitSet pattern(int... lines) {
    BitSet pattern = new BitSet();
    Arrays.stream(lines).forEach(pattern::set);
    return pattern;
  }

  private Optional<Unrest> inGroups(List<BitSet> patterns, BitSet start, long mostWork) {
    work = 0;
    for (int from = 0; from < patterns.size() && work < mostWork; from += LANES) {
      List<BitSet> group = patterns.subList(from, Math.min(from + LANES, patterns.size()));
      Optional<Unrest> driving = run(group, start);
      if (driving.isPresent()) {
        return driving;
      }
      Optional<Unrest> letGo = goOn(group, true);
      if (letGo.isPresent()) {
        return letGo;
      }
    }
    return Optional.empty();
  }

  private Optional<Unrest> run(List<BitSet> patterns, BitSet start) {
    for (int r = 0; r < lanes.operated().length; r++) {
      lanes.operated()[r] = start.get(r) ? Lanes.ALL : 0;
    }
    return goOn(patterns, false);
  }

  /** From the relays as they are. */
  private Optional<Unrest> goOn(List<BitSet> patterns, boolean release) {
    Arrays.fill(lanes.driven(), 0);
    for (int lane = 0; lane < patterns.size() && !release; lane++) {
      long bit = 1L << lane;
      patterns.get(lane).stream().forEach(line -> lanes.driven()[line] |= bit);
    }
    long[] before = lanes.operated().clone();
    long cycling = cycling();
    if (cycling == 0) {
      return Optional.empty();
    }
    int lane = Long.numberOfTrailingZeros(cycling);
    BitSet lines = release ? new BitSet() : lane < patterns.size() ? patterns.get(lane) : null;
    return Optional.of(
        new Unrest(
            lines == null ? new BitSet() : lines,
            lane(lane, before),
            lane(lane, lanes.operated())));
  }

  /** Lanes that go round a circle; 0 when all rest. */
  private long cycling() {
    long[] snapshot = lanes.operated().clone();
    int next = 1;
    for (int rounds = 1; rounds <= MOST_ROUNDS; rounds++) {
      work += circuit.links().size();
      long moved = lanes.round();
      if (moved == 0) {
        return 0;
      }
      // Brent's cycle search: compare with a snapshot that is renewed at every power of two
      long circled = moved & ~differing(snapshot);
      if (circled != 0 || rounds == MOST_ROUNDS) {
        return circled != 0 ? circled : moved;
      }
      if (rounds == next) {
        snapshot = lanes.operated().clone();
        next *= 2;
      }
    }
    return 0;
  }

  private long differing(long[] snapshot) {
    long differing = 0;
    for (int r = 0; r < snapshot.length; r++) {
      differing |= snapshot[r] ^ lanes.operated()[r];
    }
    return differing;
  }

  private static BitSet lane(int lane, long[] operated) {
    BitSet relays = new BitSet();
    for (int r = 0; r < operated.length; r++) {
      if ((operated[r] >>> lane & 1) != 0) {
        relays.set(r);
      }
    }
    return relays;
  }
}
