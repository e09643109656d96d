package cardproof.plan.sight;

import cardproof.bits.Values;
import cardproof.card.Card;
import cardproof.card.NeverRestsException;
import cardproof.plan.Plan;
import cardproof.plan.Vector;
import cardproof.plan.VectorSource;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Iterator;
import java.util.List;

/**
 * Which faults of its driven lines a card has shown by now, by its behaviour: each line stuck at
 * ground or at supply, and any two lines exchanged. One fault at a time; a fault is found when some
 * watched bit that is known of the sound card is known to differ, or when the behaviour no longer
 * comes to rest. What power leaves unknown is tried as all zeros and all ones.
 *
 * <p>Nothing is known here of relays, joints and contacts inside the card. Not thread safe.
 */
public final class FaultSearch {
  private final Watched watched;
  private final List<LineFault> all;
  private final List<Machine> left = new ArrayList<>();
  private final Values sound;
  private long taken;

  /**
   * @param card with a behaviour, just switched on
   */
  public FaultSearch(Card card) {
    this(new Watched(card), LineFault.of(card));
  }

  /**
   * What one bus alone shows of some faults.
   *
   * @param bus its index
   */
  public static FaultSearch at(Card card, int bus, List<LineFault> faults) {
    return new FaultSearch(new Watched(card, b -> b == bus), faults);
  }

  private FaultSearch(Watched watched, List<LineFault> faults) {
    this.watched = watched;
    this.all = List.copyOf(faults);
    this.sound = watched.powerOn(null);
    all.forEach(fault -> left.add(Machine.poweredOn(watched, fault)));
  }

  private FaultSearch(FaultSearch other) {
    this.watched = other.watched;
    this.all = other.all;
    this.sound = new Values(other.sound.size());
    sound.copyFrom(other.sound);
    other.left.forEach(machine -> left.add(machine.fork()));
    this.taken = other.taken;
  }

  /** One that goes on from here by itself. */
  public FaultSearch copy() {
    return new FaultSearch(this);
  }

  /** All that are looked for. */
  public List<LineFault> all() {
    return all;
  }

  /** Those that nothing has shown so far. */
  public List<LineFault> left() {
    return left.stream().map(Machine::fault).toList();
  }

  /** Takes those vectors of a plan that come behind what was taken so far. */
  public void takeRest(Plan plan) {
    long before = taken;
    for (VectorSource vectors = plan.vectors(); vectors.hasNext(); ) {
      Vector vector = vectors.next();
      if (vector.number() >= before) {
        take(vector.level());
      }
    }
  }

  /**
   * Drives a pattern.
   *
   * @param driven levels by bus index; released lines are 0
   * @throws NeverRestsException where even a sound card does not come to rest
   */
  public void take(long[] driven) {
    watched.apply(driven, sound);
    Watched.Seen seen = watched.seen();
    left.removeIf(machine -> machine.take(driven, seen));
    taken++;
  }

  /** Takes these faults out, since no plan can find them. */
  public void leaveOut(List<LineFault> unseeable) {
    left.removeIf(machine -> unseeable.contains(machine.fault()));
  }

  /**
   * Faults that patterns driven next, one after another, would find; by their place in {@link
   * #left}. None where the sound card would not come to rest, or would drive a shared line that the
   * patterns drive as well, of which nobody could say whose level is seen.
   */
  public BitSet wouldFind(List<long[]> patterns) {
    BitSet found = new BitSet();
    Values state = new Values(sound.size());
    state.copyFrom(sound);
    List<Watched.Seen> seen = new ArrayList<>();
    try {
      for (long[] driven : patterns) {
        watched.apply(driven, state);
        seen.add(watched.seen());
        if (bothDrive(driven)) {
          return found;
        }
      }
    } catch (NeverRestsException never) {
      return found;
    }
    for (int i = 0; i < left.size(); i++) {
      if (finds(left.get(i).fork(), patterns, seen.iterator())) {
        found.set(i);
      }
    }
    return found;
  }

  private static boolean finds(
      Machine machine, List<long[]> patterns, Iterator<Watched.Seen> sound) {
    return patterns.stream().anyMatch(driven -> machine.take(driven, sound.next()));
  }

  private boolean bothDrive(long[] driven) {
    for (int b = 0; b < driven.length; b++) {
      if (driven[b] != 0 && watched.cardMayDrive(b) != 0) {
        return true;
      }
    }
    return false;
  }
}
